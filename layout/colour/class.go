package colour

// Class is how much a colour difference matters to the eye.
type Class int

// Classes, with the difference at which each begins. The steps 2, 6 and 12 are
// published for CIELAB differences on wood (Allegretti and others 2009; Journal
// of the Korean Wood Science and Technology 50(4), 2022, 283, table 2: 0.2 to 2
// very small, 2 to 3 small, 3 to 6 medium, 6 to 12 large, over 12 a different
// colour). That they are held against CIEDE2000 here is an engineering choice.
const (
	OneColour Class = iota // under 2
	Medium                 // from 2
	Large                  // from 6
	Different              // from 12
)

// ClassOf returns the class of a difference; OneColour for what is not a
// number.
func ClassOf(de float64) Class {
	switch {
	case de >= 12:
		return Different
	case de >= 6:
		return Large
	case de >= 2:
		return Medium
	}
	return OneColour
}

// String names the class in words that fit after "the difference is".
func (c Class) String() string {
	switch c {
	case OneColour:
		return "very small"
	case Medium:
		return "small to medium"
	case Large:
		return "large"
	case Different:
		return "a different colour"
	}
	return "unknown"
}
