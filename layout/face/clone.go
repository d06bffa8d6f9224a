package face

import "slices"

// Clone returns a reading of its own, which the Reader does not change.
func (r *Reading) Clone() *Reading {
	out := *r
	out.Show, out.Back = r.Show.clone(), r.Back.clone()
	out.Strips = slices.Clone(r.Strips)
	out.Joints = slices.Clone(r.Joints)
	out.Warnings = cloneWarnings(r.Warnings)
	return &out
}

func (f *Face) clone() Face {
	out := *f
	out.Bands = slices.Clone(f.Bands)
	for i := range out.Bands {
		out.Bands[i].Strips = slices.Clone(out.Bands[i].Strips)
	}
	out.Flaws = slices.Clone(f.Flaws)
	return out
}

func cloneWarnings(list []Warning) []Warning {
	out := slices.Clone(list)
	for i := range out {
		w := &out[i]
		w.Strips, w.Boards = slices.Clone(w.Strips), slices.Clone(w.Boards)
		w.Under = cloneWarnings(w.Under)
	}
	return out
}
