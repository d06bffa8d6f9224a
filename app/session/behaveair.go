package session

import (
	"fmt"

	"heartside/layout/face"
	"heartside/layout/wood/moisture"
	"heartside/model"
	"heartside/model/say"
	"heartside/model/unit"
)

// behaving is what the sections of a panel's behaviour are made from.
type behaving struct {
	s       *Session
	p       *model.Project
	n       *model.Panel
	fp      *face.Panel
	read    *face.Reading
	span    moisture.Span
	trouble error // nothing can be said of the seasons
}

// spanOf returns the moisture content of wood now and in the two seasons.
func spanOf(c model.Climate) (moisture.Span, error) {
	var out moisture.Span
	for _, at := range []struct {
		name string
		air  model.Air
		to   *moisture.Level
	}{{say.T("now"), c.Now, &out.Now}, {say.T("driest season"), c.Dry, &out.Dry}, {say.T("dampest season"), c.Wet, &out.Wet}} {
		var err error
		if at.air.MC > 0 {
			*at.to, err = moisture.LevelOfReading(at.air.MC, moisture.MeterUnknown)
		} else {
			*at.to, err = moisture.LevelOfAir(moisture.Air{RH: at.air.RH, Temp: at.air.Temp})
		}
		if err != nil {
			return out, fmt.Errorf("%s: %w", at.name, err)
		}
	}
	return out, out.Check()
}

// MC prints a moisture content.
func MC(v float64) string { return say.Print("%.1f %%", v) }

func (b *behaving) airSection() Section {
	out := Section{ID: "air", Title: say.T("The wood in this air")}
	if b.trouble != nil {
		out.Lead, out.Strong = say.F("The air cannot be used: %s.", b.trouble.Error()), true
		out.Notes = []string{say.T("Put it right in the project settings.")}
		return out
	}
	out.Lead = say.F("Wood that has settled holds %s now, %s in the driest season, %s in the dampest.",
		MC(b.span.Now.MC), MC(b.span.Dry.MC), MC(b.span.Wet.MC))
	out.Rows = []Row{{Values: []string{say.T("now"), say.T("driest"), say.T("dampest")}, Head: true}}
	from := Row{Name: say.T("From")}
	mc := Row{Name: say.T("Moisture content")}
	for _, l := range []moisture.Level{b.span.Now, b.span.Dry, b.span.Wet} {
		mc.Values = append(mc.Values, MC(l.MC))
		from.Values = append(from.Values, b.levelFrom(l))
		out.How = append(out.How, l.Working()...)
	}
	out.Rows = append(out.Rows, mc, from)
	if b.span.Outside() {
		out.Notes = append(out.Notes, say.T("The air now lies outside the two seasons: wood made up today moves once more than the seasons say."))
	}
	out.Notes = append(out.Notes, say.T("Wood follows the air slowly; a meter on the wood beats any map or table."))
	return out
}

func (b *behaving) levelFrom(l moisture.Level) string {
	if l.Origin != moisture.FromAir {
		return say.T("reading")
	}
	if b.p.Units == unit.Inch {
		return say.Print("%.0f %%, %.0f °F", l.Air.RH, l.Air.Temp*9/5+32)
	}
	return say.Print("%.0f %%, %.0f °C", l.Air.RH, l.Air.Temp)
}
