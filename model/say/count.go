package say

import "strconv"

// Count says how many things there are, by what one and several of them are called
// in the language in use: "1 strip", "3 strips".
func Count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}
