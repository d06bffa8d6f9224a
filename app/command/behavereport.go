package command

import "heartside/app/session"

// behaviourJSON is how the wood of a panel will behave. What cannot be told is
// null.
type behaviourJSON struct {
	Moisture *moistureJSON `json:"moisture"`
	Movement *movementJSON `json:"movement"`
	Cup      *cupJSON      `json:"cup"`
	Weight   *float64      `json:"weight_kg"`
	Joined   []joinedJSON  `json:"joined"`
	Ages     []ageJSON     `json:"ages"`
	CleanUp  []cleanJSON   `json:"clean_up"`
	Planing  []planingJSON `json:"planing"`
}

type moistureJSON struct {
	Now float64 `json:"now"`
	Dry float64 `json:"dry"`
	Wet float64 `json:"wet"`
}

type movementJSON struct {
	Now      float64    `json:"now_width_mm"`
	Dry      float64    `json:"dry_width_mm"`
	Wet      float64    `json:"wet_width_mm"`
	DryRange [2]float64 `json:"dry_range_mm"`
	WetRange [2]float64 `json:"wet_range_mm"`
}

type cupJSON struct {
	Dry      float64 `json:"dry_mm"`
	Wet      float64 `json:"wet_mm"`
	GluedDry float64 `json:"glued_dry_mm"`
	GluedWet float64 `json:"glued_wet_mm"`
}

type joinedJSON struct {
	Panel string  `json:"panel"`
	How   string  `json:"how"`
	Dry   float64 `json:"dry_apart_mm"`
	Wet   float64 `json:"wet_apart_mm"`
	Class string  `json:"class"`
}

type ageJSON struct {
	Years       float64  `json:"years"`
	Contrast    *float64 `json:"contrast"`
	LoneStreaks int      `json:"lone_streaks"`
	Basis       string   `json:"basis"`
}

type cleanJSON struct {
	Strip    string  `json:"strip"`
	Sure     float64 `json:"sure_mm"`
	Likely   float64 `json:"likely_mm"`
	Straight float64 `json:"straight_width_mm"`
	Verdict  string  `json:"verdict"`
}

type planingJSON struct {
	Strip     string     `json:"strip"`
	Board     string     `json:"board"`
	Up        int        `json:"up"`
	Thickness float64    `json:"thickness_mm"`
	Off       [2]float64 `json:"off_mm"`
	After     float64    `json:"after_glue_mm"`
	Finished  float64    `json:"finished_mm"`
	Sawn      float64    `json:"light_share_sawn"`
	Shows     float64    `json:"light_share"`
	Moves     *float64   `json:"line_moves_mm"`
	How       string     `json:"how"`
	Uncertain *float64   `json:"uncertain_mm"`
}

// planingReport is what planing does to the strips that lie on boards.
func planingReport(s *session.Session, panel string) []planingJSON {
	out := []planingJSON{}
	for _, k := range s.StripPlanings(panel) {
		x := planingJSON{Strip: k.Strip, Board: k.Board, Up: k.Up, Thickness: round(k.Stock.Thickness, 3),
			Off: [2]float64{round(k.Stock.Off[0], 3), round(k.Stock.Off[1], 3)}, After: round(k.Stock.After, 3),
			Finished: round(k.Stock.Finished, 3), Sawn: round(k.Sawn, 6), Shows: round(k.Finished, 6), How: "not-known"}
		if k.Known {
			moves, about := round(k.Move, 2), round(k.Note.Uncertain, 2)
			x.Moves, x.Uncertain, x.How = &moves, &about, string(k.Note.How)
		}
		out = append(out, x)
	}
	return out
}

func behaviourReport(s *session.Session, panel string) behaviourJSON {
	out := behaviourJSON{Joined: []joinedJSON{}, Ages: []ageJSON{}, CleanUp: []cleanJSON{}, Planing: planingReport(s, panel)}
	f, ok := s.Figures(panel)
	if !ok {
		return out
	}
	if m := f.Moisture; m != nil {
		out.Moisture = &moistureJSON{round(m[0], 3), round(m[1], 3), round(m[2], 3)}
	}
	if m := f.Movement; m != nil {
		pair := func(r [2]float64) [2]float64 { return [2]float64{round(r[0], 3), round(r[1], 3)} }
		out.Movement = &movementJSON{round(m.Now, 3), round(m.Dry, 3), round(m.Wet, 3), pair(m.DryRange), pair(m.WetRange)}
	}
	if c := f.Cup; c != nil {
		out.Cup = &cupJSON{round(c.Dry, 3), round(c.Wet, 3), round(c.GluedDry, 3), round(c.GluedWet, 3)}
	}
	if f.Weight > 0 {
		kg := round(f.Weight, 2)
		out.Weight = &kg
	}
	for _, j := range f.Joined {
		how := "fixed"
		if !j.Fixed {
			how = "free"
		}
		out.Joined = append(out.Joined, joinedJSON{j.Other, how, round(j.Dry, 3), round(j.Wet, 3), j.Class})
	}
	for _, a := range f.Ages {
		x := ageJSON{Years: a.Years, LoneStreaks: a.LoneStreaks, Basis: a.Basis}
		if a.Contrast > 0 {
			de := round(a.Contrast, 3)
			x.Contrast = &de
		}
		out.Ages = append(out.Ages, x)
	}
	for _, c := range f.CleanUp {
		verdict := "will-not"
		switch {
		case c.CleansUp:
			verdict = "cleans-up"
		case c.MayCleanUp:
			verdict = "likely"
		}
		out.CleanUp = append(out.CleanUp, cleanJSON{c.Strip, round(c.Sure, 2), round(c.Likely, 2), round(c.Straight, 2), verdict})
	}
	return out
}
