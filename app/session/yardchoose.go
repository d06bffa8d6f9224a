package session

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"heartside/layout/buy"
	"heartside/layout/face"
	"heartside/model/say"
	"heartside/model/unit"
)

// YardChoice is which boards to buy, in words.
type YardChoice struct {
	Made    bool     // the boards make the job
	Chosen  []string // letters of boards on offer to buy, beside those kept
	Cost    float64  // of these; 0 where money does not count
	Lead    string
	Proof   string   // whether another choice may cost less
	Cuts    []string // what is cut from which board
	Lacking []string // what is missing
}

// YardNote says what all figures of the yard rest on.
func YardNote() string {
	return say.T("Counted with straight cuts along the boards and the project's allowances. Knots, splits and wane are not counted. Better cuts may exist, so a board too many may be named, never one too few.")
}

// Choose finds the boards that make the job at least cost, and where none do what
// is missing.
func (j *YardJob) Choose(ctx context.Context) (YardChoice, error) {
	if len(j.needs) == 0 {
		return YardChoice{Lead: say.T("There are no panels and no solid parts that could be made of this wood: nothing is needed yet.")}, nil
	}
	c, err := buy.Choose(ctx, j.boards, j.needs, j.work, buy.Options{})
	if err != nil {
		return YardChoice{}, err
	}
	if ctx.Err() != nil {
		return YardChoice{}, ctx.Err()
	}
	out := YardChoice{Made: c.Made}
	if !c.Made {
		out.Lead = say.T("No choice of these boards was found that makes the job.")
		switch {
		case len(j.boards) == 0:
			out.Lead = say.T("No board is on offer yet.")
		case c.Proved && len(j.free)+len(j.kept) == 0:
			out.Lead = say.T("The boards in the rack do not make the job, and no board is on offer yet.")
		case c.Proved:
			out.Lead = say.T("All these boards together do not make the job.")
		}
		lack, err := buy.Lacking(ctx, j.boards, j.needs, j.work, buy.Options{})
		if err != nil && !errors.Is(err, context.Canceled) {
			return out, err
		}
		for i := range lack {
			out.Lacking = append(out.Lacking, j.lackWords(&lack[i]))
		}
		return out, ctx.Err()
	}
	var chosen []string
	for _, id := range c.Boards {
		if slices.Contains(j.free, id) {
			chosen = append(chosen, id)
		}
	}
	out.Chosen = j.named(chosen)
	j.leadWords(&out, chosen)
	if len(chosen) > 0 {
		out.Proof = j.proofWords(&c)
	}
	if idle := without(j.kept, c.Boards); len(idle) > 0 {
		out.Proof = strings.TrimSpace(out.Proof + say.F(" Of those you keep, the job takes nothing of %s.", say.List(j.named(idle))))
	}
	out.Cuts = j.cutWords(c.Cuts)
	return out, nil
}

func without(list, some []string) []string {
	var out []string
	for _, id := range list {
		if !slices.Contains(some, id) {
			out = append(out, id)
		}
	}
	return out
}

// leadWords says what to buy.
func (j *YardJob) leadWords(out *YardChoice, chosen []string) {
	switch {
	case len(chosen) == 0 && len(j.kept) > 0:
		out.Lead = say.T("The boards you keep make the job")
		if len(j.rack) > 0 {
			out.Lead = say.T("The boards you keep and the rack make the job")
		}
		if j.known {
			out.Lead += ": " + j.price(j.sum(j.kept))
		}
		out.Lead += say.T(". Nothing more is to be bought.")
		return
	case len(chosen) == 0:
		out.Lead = say.T("The boards in the rack make the job. Nothing is to be bought.")
		return
	}
	list := say.List(j.named(chosen))
	if !j.money {
		volume := 0.0
		for i := range j.boards {
			if b := &j.boards[i]; slices.Contains(chosen, b.ID) {
				volume += b.Length * b.Width * b.Thickness
			}
		}
		out.Lead = say.F("Buy %s: %s of wood, the least. Not every board has a price, so money does not count.", list, unit.FormatVolume(volume, j.sys))
		return
	}
	out.Cost = j.sum(chosen)
	out.Lead = say.F("Buy %s: %s.", list, j.price(out.Cost))
	if len(j.kept) > 0 && j.known {
		out.Lead += say.F(" With those you keep, %s.", j.price(out.Cost+j.sum(j.kept)))
	}
}

// proofWords says how sure it is that nothing is cheaper.
func (j *YardJob) proofWords(c *buy.Choice) string {
	gap, money := math.Max(0, c.Cost-c.Least), c.By == buy.ByMoney && j.money
	switch {
	case money && (c.Proved || gap < 0.005):
		return say.T("No other choice costs less.")
	case money:
		return say.F("Not all choices could be tried: another may cost up to %s less.", j.price(gap))
	case c.Proved:
		return say.T("No other choice takes less wood.")
	}
	return say.F("Not all choices could be tried: another may take up to %s less.", unit.FormatVolume(gap, j.sys))
}

// cutWords tells what is cut from each board.
func (j *YardJob) cutWords(list []buy.Cut) []string {
	var out []string
	last := ""
	for _, c := range list {
		what := say.F("%s, %s wide together", countWords(c.Strips, say.T("strip"), say.T("strips")), j.len(c.Width))
		if c.Strips == 1 {
			what = say.F("1 strip, %s wide", j.len(c.Width))
		}
		if n := j.need(c.Need); n != nil && n.Count > 0 {
			what = countWords(c.Strips, say.T("piece"), say.T("pieces"))
		}
		what = say.F("%s for %s, from %s to %s", what, c.Need, j.len(c.From), j.len(c.To))
		if c.Board == last {
			out[len(out)-1] += "; " + what
			continue
		}
		last = c.Board
		out = append(out, j.names[c.Board]+": "+what)
	}
	return out
}

func countWords(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

func (j *YardJob) need(id string) *buy.Need {
	for i := range j.needs {
		if j.needs[i].ID == id {
			return &j.needs[i]
		}
	}
	return nil
}

// lackWords says what is missing, rounded so that a board of those figures does.
func (j *YardJob) lackWords(l *buy.Lack) string {
	what := say.T("one more board")
	if l.Boards > 1 {
		what = say.F("%d more boards", l.Boards)
	}
	text := say.F("%s: %s of at least %s × %s", l.Need, what, j.up(l.Width), j.up(l.Length))
	if l.Thickness > 0 {
		text += say.F(", %s thick", j.up(l.Thickness))
	}
	n := j.need(l.Need)
	if n == nil {
		return text + "."
	}
	return text + j.sapWords(n, l.Sap) + "."
}

// sapWords says how much unwanted wood a missing board may have.
func (j *YardJob) sapWords(n *buy.Need, sap [2]float64) string {
	show, back := !math.IsInf(sap[0], 0), !math.IsInf(sap[1], 0)
	where := map[[2]bool]string{{true, true}: say.T("both faces"), {true, false}: say.T("one face"), {false, true}: say.T("one face")}[[2]bool{show, back}]
	switch {
	case where == "" || n.Wanted == face.WantBoth:
		return say.T(", any wood")
	case n.Wanted == face.WantSap:
		return say.F(", sapwood all over %s", where)
	}
	least := math.Inf(1)
	for _, v := range sap {
		least = math.Min(least, v)
	}
	if j.down(least) == j.down(0) && (!show || !back || j.down(sap[0]) == j.down(sap[1])) {
		return say.F(", with no sapwood on %s", where)
	}
	if show && back && j.down(sap[0]) != j.down(sap[1]) {
		return say.F(", with no more sapwood along one edge than %s on the face that shows and %s on the other face, the other edge clear", j.down(sap[0]), j.down(sap[1]))
	}
	return say.F(", with no more sapwood than %s along one edge of %s, the other edge clear", j.down(least), where)
}

// step is what a rule at the yard shows: a mm, or a sixteenth of an inch.
func (j *YardJob) step() float64 {
	if j.sys == unit.Inch {
		return unit.InchMM / 16
	}
	return 1
}

func (j *YardJob) up(mm float64) string {
	return j.len(math.Ceil(mm/j.step()-1e-6) * j.step())
}

func (j *YardJob) down(mm float64) string {
	return j.len(math.Floor(mm/j.step()+1e-6) * j.step())
}

// YardWorth is what a board is worth to the job.
type YardWorth struct {
	Amount float64 // money, or mm3 of other boards where money does not count
	Needed bool
	Text   string
}

// Worths finds what each board on offer is worth to the job, by its letter.
func (j *YardJob) Worths(ctx context.Context) (map[string]YardWorth, error) {
	list, err := buy.Worths(ctx, j.boards, append(append([]string{}, j.kept...), j.free...), j.needs, j.work, buy.Options{})
	if err != nil {
		return nil, err
	}
	out := map[string]YardWorth{}
	for _, w := range list {
		y := YardWorth{Amount: w.Amount, Needed: w.Needed}
		sure := say.T("worth ")
		if !w.Proved {
			sure = say.T("worth about ")
		}
		switch {
		case w.Needed:
			y.Text = say.T("the job cannot do without it")
		case j.money && w.By == buy.ByMoney && w.Amount >= 0.005:
			y.Text = say.F("%s%s to the job", sure, j.price(w.Amount))
		case (!j.money || w.By == buy.ByWood) && w.Amount >= 1:
			y.Text = say.F("saves %s of other boards", unit.FormatVolume(w.Amount, j.sys))
		default:
			y.Text = say.T("worth nothing to the job")
		}
		out[j.names[w.Board]] = y
	}
	return out, nil
}
