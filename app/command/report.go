package command

import (
	"math"

	"heartside/app/session"
	"heartside/layout/face"
)

// reportJSON is what check --json prints. Its keys are documented in the
// README: add, never rename.
type reportJSON struct {
	Name    string      `json:"name"`
	Units   string      `json:"units"`
	Notices []string    `json:"notices"`
	Panels  []panelJSON `json:"panels"`
	Sets    []setJSON   `json:"sets"`
	// Warnings concern no panel: solid parts, and spares of spoiled boards.
	Warnings []warningJSON `json:"warnings"`
}

type panelJSON struct {
	ID       string        `json:"id"`
	Face     faceJSON      `json:"face"`
	Back     faceJSON      `json:"back"`
	Edges    edgesJSON     `json:"edges"`
	Ends     endsJSON      `json:"ends"`
	Profiles profilesJSON  `json:"profiles"`
	SawnFace bool          `json:"sawn_face"`
	Empty    int           `json:"empty_places"`
	Strips   []stripJSON   `json:"strips"`
	Joints   []jointJSON   `json:"joints"`
	Warnings []warningJSON `json:"warnings"`
	behaviourJSON
}

type faceJSON struct {
	Light           float64    `json:"light_share"`
	LightRange      [2]float64 `json:"light_share_range"`
	Unwanted        float64    `json:"unwanted_share"`
	UnwantedRange   [2]float64 `json:"unwanted_share_range"`
	Contrast        *float64   `json:"contrast"`
	ContrastAssumed bool       `json:"contrast_assumed"`
	Lightness       *float64   `json:"lightness_difference"`
	Coverage        float64    `json:"contrast_coverage"`
	Specks          int        `json:"specks"`
	Bands           []bandJSON `json:"bands"`
}

type bandJSON struct {
	ID              string   `json:"id"`
	Strips          []string `json:"strips"`
	X               float64  `json:"x_mm"`
	Y               float64  `json:"y_mm"`
	Length          float64  `json:"length_mm"`
	Width           float64  `json:"width_mm"`
	MaxWidth        float64  `json:"max_width_mm"`
	Area            float64  `json:"area_mm2"`
	Share           float64  `json:"share"`
	Contrast        float64  `json:"contrast"`
	ContrastAssumed bool     `json:"contrast_assumed"`
	Sliver          bool     `json:"sliver"`
	Excuse          *string  `json:"excuse"`
}

type edgesJSON struct {
	Front float64 `json:"front"`
	Back  float64 `json:"back"`
}

type endsJSON struct {
	Left  float64 `json:"left"`
	Right float64 `json:"right"`
}

type stripJSON struct {
	ID        string     `json:"id"`
	Number    string     `json:"number"`
	Board     *string    `json:"board"`
	Light     float64    `json:"light_share"`
	BackLight float64    `json:"back_light_share"`
	SapWidths widthsJSON `json:"sap_widths_mm"`
	BackSap   widthsJSON `json:"back_sap_widths_mm"`
	Guessed   bool       `json:"guessed"`
}

type widthsJSON struct {
	Front [3]float64 `json:"front"`
	Back  [3]float64 `json:"back"`
}

type jointJSON struct {
	Strips   [2]string `json:"strips"`
	Kind     string    `json:"kind"`
	Mismatch float64   `json:"mismatch"`
	Step     float64   `json:"step_mm"`
}

type warningJSON struct {
	Kind    string    `json:"kind"`
	Strips  []string  `json:"strips"`
	Side    string    `json:"side"`
	Title   string    `json:"title"`
	Text    string    `json:"text"`
	Assumed bool      `json:"assumed"`
	Under   []string  `json:"under"`
	Fixes   []fixJSON `json:"fixes"`
}

type fixJSON struct {
	Kind      string    `json:"kind"`
	Strips    []string  `json:"strips"`
	Text      string    `json:"text"`
	Cost      string    `json:"cost"`
	AfterText string    `json:"after_text"`
	After     afterJSON `json:"after"`
}

type afterJSON struct {
	Light       float64 `json:"light_share"`
	Unwanted    float64 `json:"unwanted_share"`
	Coverage    float64 `json:"contrast_coverage"`
	LoneStreaks int     `json:"lone_streaks"`
}

// report reads every panel of s.
func report(s *session.Session) reportJSON {
	p := s.Project()
	out := reportJSON{Name: p.Name, Units: string(p.Units), Panels: []panelJSON{}, Sets: []setJSON{}, Warnings: []warningJSON{}}
	out.Notices = append(append([]string{}, s.Notices()...), s.PhotoTrouble()...)
	for _, m := range p.Panels {
		out.Panels = append(out.Panels, panelReport(s, m.ID))
	}
	for _, set := range p.Sets {
		out.Sets = append(out.Sets, setReport(s.ReadSet(set)))
	}
	for _, n := range s.LooseNotes() {
		out.Warnings = append(out.Warnings, warningReport(&n))
	}
	return out
}

func panelReport(s *session.Session, id string) panelJSON {
	r, fp := s.Reading(id), s.Panel(id)
	out := panelJSON{
		ID: id, Face: faceReport(fp, &r.Show), Back: faceReport(fp, &r.Back),
		Edges:    edgesJSON{round(r.Edges[0].Light.Value, 6), round(r.Edges[1].Light.Value, 6)},
		Ends:     endsJSON{round(r.Ends[0].Light.Value, 6), round(r.Ends[1].Light.Value, 6)},
		Profiles: profilesReport(r), SawnFace: r.SawnFaces,
		Strips: []stripJSON{}, Joints: []jointJSON{}, Warnings: []warningJSON{},
	}
	for i := range r.Strips {
		if r.Strips[i].Empty {
			out.Empty++
		}
		out.Strips = append(out.Strips, stripReport(s, id, &fp.Strips[i], &r.Strips[i]))
	}
	for _, j := range r.Joints {
		out.Joints = append(out.Joints, jointJSON{
			Strips: [2]string{fp.Strips[j.I].ID, fp.Strips[j.I+1].ID}, Kind: string(j.Kind),
			Mismatch: round(j.Mismatch, 6), Step: round(j.Step, 3),
		})
	}
	out.behaviourJSON = behaviourReport(s, id)
	for _, n := range s.Notes(id) {
		out.Warnings = append(out.Warnings, warningReport(&n))
	}
	return out
}

func faceReport(p *face.Panel, f *face.Face) faceJSON {
	out := faceJSON{
		Light:      round(f.Light.Value, 6),
		LightRange: [2]float64{round(f.Light.Lo, 6), round(f.Light.Hi, 6)},
		Unwanted:   round(f.Unwanted.Value, 6), UnwantedRange: [2]float64{round(f.Unwanted.Lo, 6), round(f.Unwanted.Hi, 6)},
		ContrastAssumed: f.Contrast.Known && f.Contrast.Assumed,
		Coverage:        round(f.Coverage, 6), Specks: f.Specks, Bands: []bandJSON{},
	}
	if f.Contrast.Known {
		de, dl := round(f.Contrast.DE, 3), round(f.Contrast.DL, 3)
		out.Contrast, out.Lightness = &de, &dl
	}
	for i := range f.Bands {
		b := &f.Bands[i]
		x := bandJSON{
			ID: b.ID, Strips: []string{}, X: round(b.Place.Min.X, 3), Y: round(b.Place.Min.Y, 3),
			Length: round(b.Length, 3), Width: round(b.MeanWidth, 3), MaxWidth: round(b.MaxWidth, 3),
			Area: round(b.Area, 1), Share: round(b.Share, 6),
			Contrast: round(b.Contrast, 3), ContrastAssumed: b.Assumed, Sliver: b.Sliver,
		}
		for _, k := range b.Strips {
			x.Strips = append(x.Strips, p.Strips[k].ID)
		}
		if b.Excuse != face.NoExcuse {
			e := string(b.Excuse)
			x.Excuse = &e
		}
		out.Bands = append(out.Bands, x)
	}
	return out
}

func stripReport(s *session.Session, panel string, st *face.Strip, r *face.StripReading) stripJSON {
	out := stripJSON{
		ID: st.ID, Number: s.Number(panel, st.ID), Light: round(r.Light.Value, 6), BackLight: round(r.BackLight.Value, 6),
		SapWidths: widthsReport(r.Front, r.Rear), BackSap: widthsReport(r.BackFront, r.BackRear), Guessed: r.Guessed,
	}
	if st.Board != nil {
		out.Board = &st.Board.ID
	}
	return out
}

func widthsReport(front, rear face.Widths) (w widthsJSON) {
	for i := range front {
		w.Front[i], w.Back[i] = round(front[i], 3), round(rear[i], 3)
	}
	return w
}

func warningReport(n *session.Note) warningJSON {
	out := warningJSON{
		Kind: string(n.Kind), Strips: append([]string{}, n.Strips...), Side: sideName(n.Side),
		Title: n.Title, Text: n.Title + ". " + n.Text, Assumed: n.Assumed,
		Under: append([]string{}, n.Under...), Fixes: []fixJSON{},
	}
	for _, f := range n.Fixes {
		out.Fixes = append(out.Fixes, fixJSON{
			Kind: f.Kind, Strips: append([]string{}, f.Strips...), Text: f.Text, Cost: f.Cost, AfterText: f.After,
			After: afterJSON{
				Light: round(f.Readings.Light, 6), Unwanted: round(f.Readings.Unwanted, 6),
				Coverage: round(f.Readings.Coverage, 6), LoneStreaks: f.Readings.LoneStreaks,
			},
		})
	}
	return out
}

// sideName names a side in JSON.
func sideName(s face.Side) string {
	return [...]string{"face", "back", "front", "rear", "left", "right"}[s]
}

// round keeps n decimals, so that output does not differ in the last bits.
func round(v float64, n int) float64 {
	k := math.Pow10(n)
	if v = math.Round(v*k) / k; v == 0 {
		return 0
	}
	return v
}
