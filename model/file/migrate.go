package file

import "gopkg.in/yaml.v3"

// migration lifts a file from version From to From + 1.
type migration struct {
	From int
	Lift func(root *yaml.Node) error
}

// migrations returns the steps from the first version to the present one, in
// order and without a gap.
func migrations() []migration { return nil }

// lift brings a file of an earlier version up to the present one.
func lift(root *yaml.Node, have int) error {
	for _, m := range migrations() {
		if m.From < have {
			continue
		}
		if err := m.Lift(root); err != nil {
			return err
		}
	}
	return nil
}
