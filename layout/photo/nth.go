package photo

// Nth returns the value that would stand at k if v were sorted, and leaves v in
// another order (Hoare 1961).
func Nth(v []float64, k int) float64 {
	lo, hi := 0, len(v)-1
	for lo < hi {
		at := v[lo+(hi-lo)/2]
		i, j := lo, hi
		for i <= j {
			for v[i] < at {
				i++
			}
			for at < v[j] {
				j--
			}
			if i <= j {
				v[i], v[j] = v[j], v[i]
				i++
				j--
			}
		}
		switch {
		case k <= j:
			hi = j
		case k >= i:
			lo = i
		default:
			return v[k]
		}
	}
	return v[k]
}
