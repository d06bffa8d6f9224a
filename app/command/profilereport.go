package command

import (
	"heartside/app/session"
	"heartside/layout/face"
	"heartside/model"
)

// profilesJSON are the worked edges of a show face, null where one is square.
type profilesJSON struct {
	Front *profileJSON `json:"front"`
	Back  *profileJSON `json:"back"`
	Left  *profileJSON `json:"left"`
	Right *profileJSON `json:"right"`
}

// profileJSON is the surface that a bevel or a round-over leaves.
type profileJSON struct {
	Light         float64    `json:"light_share"`
	LightRange    [2]float64 `json:"light_share_range"`
	Unwanted      float64    `json:"unwanted_share"`
	UnwantedRange [2]float64 `json:"unwanted_share_range"`
	Width         float64    `json:"light_width_mm"`
	Guessed       bool       `json:"guessed"`
}

func profilesReport(r *face.Reading) (out profilesJSON) {
	for e, p := range [4]**profileJSON{&out.Front, &out.Back, &out.Left, &out.Right} {
		q := &r.Profiles[e]
		if !q.Worked {
			continue
		}
		*p = &profileJSON{
			Light: round(q.Light.Value, 6), LightRange: [2]float64{round(q.Light.Lo, 6), round(q.Light.Hi, 6)},
			Unwanted: round(q.Unwanted.Value, 6), UnwantedRange: [2]float64{round(q.Unwanted.Lo, 6), round(q.Unwanted.Hi, 6)},
			Width: round(q.Width, 3), Guessed: q.Guessed,
		}
	}
	return out
}

// profiles writes what the worked edges show.
func (w *lines) profiles(s *session.Session, m *model.Panel, p profilesJSON) {
	sides := m.Role.Sides()
	for e, x := range [4]*profileJSON{p.Front, p.Back, p.Left, p.Right} {
		if x == nil {
			continue
		}
		w.printf("  %s at the %s: %s light, %s wide in the mean", session.ProfileKind(m.Profiles[e]), sides[e].Name, share(x.Light), s.Len(x.Width))
		if x.Guessed {
			w.printf("; the wood below the face is not known")
		}
		w.printf("\n")
	}
}
