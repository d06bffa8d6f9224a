package ui

import (
	"fmt"
	"math"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/model"
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
	degree *widget.Label
}

func newAirForm(w *Window, c model.Climate, units unit.System) *airForm {
	f := &airForm{was: c, units: units, degree: head("temperature")}
	for i, air := range [3]model.Air{c.Now, c.Dry, c.Wet} {
		f.humid[i] = w.newField(figureText(air.RH), "45")
		f.warm[i] = w.newField(warmText(air.Temp, units), "20")
		f.humid[i].narrow, f.warm[i].narrow = true, true
	}
	f.tell()
	return f
}

func (f *airForm) tell() {
	if f.units == unit.Inch {
		f.degree.SetText("temperature, °F")
	} else {
		f.degree.SetText("temperature, °C")
	}
}

// head is a small label over a column of fields.
func head(s string) *widget.Label {
	l := widget.NewLabel(s)
	l.SizeName, l.Importance = "captionText", widget.LowImportance
	l.Truncation = fyne.TextTruncateEllipsis
	return l
}

func (f *airForm) body() fyne.CanvasObject {
	g := container.NewGridWithColumns(3, head(""), head("humidity, %"), f.degree)
	for i, name := range [3]string{"Now", "Driest season", "Dampest season"} {
		g.Add(named(name))
		g.Add(f.humid[i])
		g.Add(f.warm[i])
	}
	return container.NewVBox(wrapped("Relative humidity and temperature of the room where the piece stands, from a hygrometer. Wood follows the air.", widget.LowImportance), g)
}

// figureText prints a figure to a tenth, without a decimal where it is whole.
func figureText(v float64) string { return strconv.FormatFloat(math.Round(v*10)/10, 'f', -1, 64) }

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
	v, err := f.warm[i].number("temperature")
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
		name := [3]string{"air now", "driest season", "dampest season"}[i]
		if f.humid[i].Text != figureText(air.RH) {
			v, err := f.humid[i].number(name + ", humidity")
			if err != nil {
				return out, err
			}
			air.RH = v
		}
		if air.RH < 0 || air.RH > 100 {
			return out, fmt.Errorf("%s: the humidity lies between 0 and 100 %%", name)
		}
		v, err := f.celsius(i, air.Temp)
		if err != nil {
			return out, fmt.Errorf("%s, %w", name, err)
		}
		if air.Temp = v; v < -50 || v > 80 {
			return out, fmt.Errorf("%s: “%s” is no temperature of a room", name, f.warm[i].Text)
		}
	}
	if out.Dry.RH > out.Wet.RH {
		return out, fmt.Errorf("the driest season, %s %%, is damper than the dampest, %s %%: put them the other way round", figureText(out.Dry.RH), figureText(out.Wet.RH))
	}
	return out, nil
}
