package ui

import (
	"fmt"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/layout/wood/moisture"
	"heartside/model"
	"heartside/model/say"
	"heartside/model/unit"
)

// airForm is the part of the settings about the air: humidity and temperature
// now and in the driest and dampest season. Inch projects show degrees
// Fahrenheit.
type airForm struct {
	was    model.Climate
	units  unit.System
	humid  [3]*field
	warm   [3]*field
	read   [3]*field // moisture content read on wood in that air, "" none
	degree *widget.Label
	places *pick
	about  *widget.Label // on the place chosen
}

func newAirForm(w *Window, c model.Climate, units unit.System) *airForm {
	f := &airForm{was: c, units: units, degree: head(say.T("temperature"))}
	for i, air := range [3]model.Air{c.Now, c.Dry, c.Wet} {
		f.humid[i] = w.newField(figureText(air.RH), "45")
		f.warm[i] = w.newField(warmText(air.Temp, units), "20")
		f.read[i] = w.newField("", say.T("from the air"))
		if air.MC > 0 {
			f.read[i].SetText(figureText(air.MC))
		}
		f.humid[i].narrow, f.warm[i].narrow, f.read[i].narrow = true, true, true
	}
	f.places = choice(w, airPlaces(), airPlaceWords, "")
	f.places.changed = f.fill
	f.about = wrapped("", widget.LowImportance)
	f.about.Hide()
	f.tell()
	return f
}

// airPlaces are the ids of the places that moisture contents are known for;
// "" is none of them.
func airPlaces() []string {
	out := []string{""}
	for _, p := range moisture.Presets() {
		if _, ok := p.Span(); ok {
			out = append(out, p.ID)
		}
	}
	return out
}

func airPlaceWords(id string) string {
	if p, ok := moisture.PresetOf(id); ok {
		return say.Of(p.Name)
	}
	return say.T("From the figures below")
}

// fill writes the moisture contents of the place chosen, to be changed. None
// chosen takes those away that a place gave.
func (f *airForm) fill() {
	p, ok := moisture.PresetOf(chosen(f.places, airPlaces()))
	if !ok {
		for _, r := range f.read {
			r.SetText("")
		}
		f.about.Hide()
		return
	}
	for i, v := range [3]float64{p.Usual, p.Low, p.High} {
		f.read[i].SetText(figureText(v))
	}
	f.about.SetText(say.F("%s to %s %%, usually %s %%: %s (range: %s). %s",
		figureText(p.Low), figureText(p.High), figureText(p.Usual), say.Of(p.Source), say.Of(p.RangeFlag.Text()), say.Of(p.Note)))
	f.about.Show()
}

func (f *airForm) tell() {
	if f.units == unit.Inch {
		f.degree.SetText(say.T("temperature, °F"))
	} else {
		f.degree.SetText(say.T("temperature, °C"))
	}
}

// head is a small label over a column of fields.
func head(s string) *widget.Label {
	l := widget.NewLabel(s)
	l.SizeName, l.Importance = theme.SizeNameCaptionText, widget.LowImportance
	l.Truncation = fyne.TextTruncateEllipsis
	return l
}

func (f *airForm) body() fyne.CanvasObject {
	g := container.NewGridWithColumns(4, head(""), head(say.T("humidity, %")), f.degree, head(say.T("or wood read, %")))
	for i, name := range [3]string{say.T("Now"), say.T("Driest season"), say.T("Dampest season")} {
		g.Add(named(name))
		g.Add(f.humid[i])
		g.Add(f.warm[i])
		g.Add(f.read[i])
	}
	return container.NewVBox(pairs(named(say.T("Usual for")), f.places), f.about, wrapped(say.T("Relative humidity and temperature of the room where the piece stands, from a hygrometer. Wood follows the air; where a meter has read wood that has long been in that air, its moisture content stands for the air."), widget.LowImportance), g)
}

// figureText prints a figure to a tenth, without a decimal where it is whole.
func figureText(v float64) string { return say.Number(math.Round(v*10) / 10) }

// warmText prints degrees C in the degrees that go with the units.
func warmText(c float64, units unit.System) string {
	if units == unit.Inch {
		c = c*9/5 + 32
	}
	return figureText(c)
}

// celsius reads a temperature in the degrees that go with the units.
func (f *airForm) celsius(i int, was float64) (float64, error) {
	if f.warm[i].Text == warmText(was, f.units) {
		return was, nil
	}
	v, err := f.warm[i].number(say.T("temperature"))
	if err == nil && f.units == unit.Inch {
		v = (v - 32) * 5 / 9
	}
	return v, err
}

// convert shows the temperatures in the degrees that go with other units.
func (f *airForm) convert(to unit.System) {
	was := [3]model.Air{f.was.Now, f.was.Dry, f.was.Wet}
	var c [3]float64
	var errs [3]error
	for i := range c {
		c[i], errs[i] = f.celsius(i, was[i].Temp)
	}
	f.units = to
	for i, air := range [3]*model.Air{&f.was.Now, &f.was.Dry, &f.was.Wet} {
		if errs[i] == nil {
			air.Temp = c[i]
			f.warm[i].SetText(warmText(c[i], to))
		}
	}
	f.tell()
}

// climate reads the form.
func (f *airForm) climate() (model.Climate, error) {
	out := f.was
	for i, air := range [3]*model.Air{&out.Now, &out.Dry, &out.Wet} {
		name := [3]string{say.T("air now"), say.T("driest season"), say.T("dampest season")}[i]
		if f.humid[i].Text != figureText(air.RH) {
			v, err := f.humid[i].number(say.F("%s, humidity", name))
			if err != nil {
				return out, err
			}
			air.RH = v
		}
		if air.RH < 0 || air.RH > 100 {
			return out, say.Errorf("%s: the humidity lies between 0 and 100 %%", name)
		}
		v, err := f.celsius(i, air.Temp)
		if err != nil {
			return out, fmt.Errorf("%s, %w", name, err)
		}
		if air.Temp = v; v < -50 || v > 80 {
			return out, say.Errorf("%s: “%s” is no temperature of a room", name, f.warm[i].Text)
		}
		if air.MC > 0 && f.read[i].Text == figureText(air.MC) {
			continue
		}
		if air.MC, err = f.read[i].number(say.F("%s, wood read", name)); err != nil {
			return out, err
		}
		if air.MC != 0 && (air.MC < 2 || air.MC > 30) {
			return out, say.Errorf("%s: “%s” is no reading of dry wood; write 2 to 30 %%, or nothing", name, f.read[i].Text)
		}
	}
	if out.Dry.MC > 0 && out.Wet.MC > 0 {
		if out.Dry.MC > out.Wet.MC {
			return out, say.Errorf("wood read in the driest season, %s %%, is damper than in the dampest, %s %%: put them the other way round", figureText(out.Dry.MC), figureText(out.Wet.MC))
		}
	} else if out.Dry.RH > out.Wet.RH {
		return out, say.Errorf("the driest season, %s %%, is damper than the dampest, %s %%: put them the other way round", figureText(out.Dry.RH), figureText(out.Wet.RH))
	}
	return out, nil
}
