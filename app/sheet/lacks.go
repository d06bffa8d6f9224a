package sheet

// lacks reports whether a name or word given by the maker holds a letter that
// no typeface here has: it stands as its number, and the legend says so.
func lacks(in *Input) bool {
	list := []string{in.Project.Name, in.Date, in.Author}
	for _, b := range in.Project.Boards {
		list = append(list, b.ID, speciesName(b.Species))
	}
	for _, s := range in.Project.Sets {
		list = append(list, s.Name)
	}
	for _, n := range in.Project.Parts {
		list = append(list, n.ID)
	}
	for i := range in.Panels {
		p := in.Panels[i].Panel
		list = append(list, p.ID)
		for k := range p.Strips {
			list = append(list, in.number(p.ID, p.Strips[k].ID))
		}
		for _, n := range in.Panels[i].Notes {
			list = append(list, n.Title, n.Text)
		}
	}
	for i := range in.Spares {
		list = append(list, in.number("", in.Spares[i].ID))
	}
	for _, s := range list {
		if in.Faces.Lacks(s) {
			return true
		}
	}
	return false
}
