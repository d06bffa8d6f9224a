package model

import (
	"slices"

	"heartside/layout/geom"
)

// The copies below keep a caller's later changes out of a published project.
// An empty list becomes nil, so that equal projects compare equal.

func cloneSlice[T any](list []T) []T {
	if len(list) == 0 {
		return nil
	}
	return slices.Clone(list)
}

func clonePtr[T any](v *T) *T {
	if v == nil {
		return nil
	}
	c := *v
	return &c
}

func cloneBoard(b *Board) *Board {
	c := *b
	c.Price, c.Log, c.Pith = clonePtr(b.Price), clonePtr(b.Log), cloneSlice(b.Pith)
	for i := range c.Faces {
		c.Faces[i] = cloneFace(b.Faces[i])
	}
	for i := range c.Ends {
		c.Ends[i].Corners = clonePtr(b.Ends[i].Corners)
	}
	return &c
}

func cloneFace(f Face) Face {
	f.clonePhotograph()
	f.Outline, f.Zones, f.Grain = cloneSlice(f.Outline), cloneZones(f.Zones), cloneLines(f.Grain)
	// Whatever is told of its wood makes a face known. How the grain runs says
	// nothing of heartwood and sapwood.
	f.Known = f.Known || f.photographed() || f.Base != "" || f.Outline != nil || f.Zones != nil
	return f
}

func cloneZones(list []Zone) []Zone {
	out := cloneSlice(list)
	for i := range out {
		out[i].Polygon = cloneSlice(out[i].Polygon)
	}
	return out
}

func clonePolygons(list []geom.Polygon) []geom.Polygon {
	out := cloneSlice(list)
	for i := range out {
		out[i] = cloneSlice(out[i])
	}
	return out
}

func clonePanel(n *Panel) *Panel {
	c := *n
	c.Points, c.Hidden, c.Strips = cloneSlice(n.Points), clonePolygons(n.Hidden), cloneStrips(n.Strips)
	if c.Fitting = clonePtr(n.Fitting); c.Fitting != nil {
		c.Fitting.Rows = cloneSlice(c.Fitting.Rows)
	}
	return &c
}

func cloneStrips(list []Strip) []Strip {
	out := cloneSlice(list)
	for i := range out {
		out[i] = cloneStrip(out[i])
	}
	return out
}

func cloneStrip(s Strip) Strip {
	s.Off, s.Planed = clonePtr(s.Off), clonePtr(s.Planed)
	return s
}

func cloneColours(list []Colours) []Colours {
	out := cloneSlice(list)
	for i := range out {
		out[i].Heart, out[i].Sap = clonePtr(out[i].Heart), clonePtr(out[i].Sap)
	}
	return out
}
