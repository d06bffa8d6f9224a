package say

import "strings"

// List joins names: "A1, B2 and C1".
func List(names []string) string {
	if n := len(names); n > 1 {
		return F("%s and %s", strings.Join(names[:n-1], ", "), names[n-1])
	}
	return strings.Join(names, "")
}
