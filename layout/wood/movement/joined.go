package movement

import (
	"fmt"
	"math"
	"slices"

	"heartside/layout/wood/moisture"
)

// Member is one of two panels that meet along a joint.
type Member struct {
	Name  string
	Panel *Panel
	// Grain is true where the joint runs along this panel's grain, false where
	// it runs across, along an end.
	Grain bool
	// Length is how long the joint is on this panel where it runs along the
	// grain, mm. Across, it is the panel's width.
	Length float64
}

func (m Member) length() float64 {
	if m.Grain {
		return m.Length
	}
	return m.Panel.Now
}

// upto returns how much the member grows along the joint from its front, or
// from the end the joint begins at, to a place.
func (m Member) upto(at float64, season moisture.Season) Size {
	if !m.Grain {
		return m.Panel.upto(at, season)
	}
	return Lengthwise(at, m.Panel.Span.Now.MC, m.Panel.Span.At(season).MC)
}

// Class says what a difference in movement means for a joint.
type Class string

// Classes.
const (
	MovesAlike Class = "alike"
	SmallApart Class = "small"
	WillSplit  Class = "split" // splits or buckles unless it is free
)

// JoinLimits are the bounds of the classes, mm over the whole joint.
type JoinLimits struct{ Alike, Small float64 }

// DefaultJoinLimits returns 0.5 and 2 mm: engineering choices.
func DefaultJoinLimits() JoinLimits { return JoinLimits{Alike: 0.5, Small: 2} }

// LimitText is said beside a strain.
const LimitText = "No limit is published for the strain wood stands across the grain before it splits; the classes are engineering choices."

// Apart is the difference along a joint in one season, first less second, mm.
type Apart struct {
	A, B Size    // what each member adds to its length
	Ends Size    // their difference over the whole joint
	Most float64 // the greatest difference between any two places of the joint
}

// Meeting is what a joint between two panels has to bear.
type Meeting struct {
	A, B     Member
	Held     bool    // fixed along its whole length
	Length   float64 // of the joint, mm
	Dry, Wet Apart
	Most     float64 // the greater of both seasons, mm
	AtWorst  float64 // the same with the bounds, mm
	// Strain is Most over the length: what the wood must give if held.
	Strain float64
	// Stress is what that takes in the stiffer of the woods that move, MPa, all
	// of the strain on one side; 0 where the stiffness is not known. Wood held
	// for months gives way and bears less.
	Stress       Number
	Class, Worst Class // by Most, by AtWorst
	// Text is the verdict, without lengths; LetMove what would free the joint.
	Text    string
	LetMove []string

	stiff float64
}

// Join compares the movement of two panels along the joint between them, from
// now to the dry and to the wet season. They are laid together from their
// fronts; the shorter sets the length. Where a panel lies the other way round
// along the joint, give it with its strips reversed.
func Join(a, b Member, held bool, limits JoinLimits) (*Meeting, error) {
	for _, m := range []Member{a, b} {
		if m.Panel == nil {
			return nil, fmt.Errorf("panel %s of the joint: it has no strips; place some first", m.Name)
		}
		if l := m.length(); !(l > 0) || math.IsInf(l, 0) {
			return nil, fmt.Errorf("panel %s of the joint: length %g mm: want more than 0", m.Name, l)
		}
	}
	m := &Meeting{A: a, B: b, Held: held, Length: math.Min(a.length(), b.length())}
	m.Dry, m.Wet = m.apart(moisture.Dry), m.apart(moisture.Wet)
	m.Most = math.Max(m.Dry.Most, m.Wet.Most)
	m.AtWorst = m.Most
	for _, at := range []Apart{m.Dry, m.Wet} {
		m.AtWorst = math.Max(m.AtWorst, math.Max(math.Abs(at.Ends.Lo), math.Abs(at.Ends.Hi)))
	}
	m.Strain = m.Most / m.Length
	m.stress()
	m.Class, m.Worst = limits.class(m.Most), limits.class(m.AtWorst)
	m.advise()
	return m, nil
}

func (l JoinLimits) class(d float64) Class {
	switch {
	case d < l.Alike:
		return MovesAlike
	case d < l.Small:
		return SmallApart
	}
	return WillSplit
}

// apart compares both members at every place where one of them changes from
// strip to strip: between those the difference runs straight.
func (m *Meeting) apart(season moisture.Season) Apart {
	places := []float64{m.Length}
	for _, o := range []Member{m.A, m.B} {
		if o.Grain {
			continue
		}
		at := 0.0
		for i := range o.Panel.Strips {
			if at += o.Panel.Strips[i].Strip.Width; at < m.Length {
				places = append(places, at)
			}
		}
	}
	lo, hi := 0.0, 0.0 // the difference at the front
	for _, at := range places {
		d := m.A.upto(at, season).Value - m.B.upto(at, season).Value
		lo, hi = math.Min(lo, d), math.Max(hi, d)
	}
	a, b := m.A.upto(m.Length, season), m.B.upto(m.Length, season)
	return Apart{A: a, B: b, Ends: a.plus(b.times(-1)), Most: hi - lo}
}

func (m *Meeting) stress() {
	for _, o := range []Member{m.A, m.B} {
		if o.Grain {
			continue
		}
		for i := range o.Panel.Strips {
			w := o.Panel.Strips[i].Strip.Wood
			for _, e := range []Number{w.ET, w.ER} {
				if e.Value > m.stiff {
					m.stiff, m.Stress.Flag = e.Value, e.Flag
				}
			}
		}
	}
	m.Stress.Value = m.stiff * m.Strain
}

func (m *Meeting) advise() {
	cross := m.A.Grain != m.B.Grain
	switch {
	case m.Class == MovesAlike:
		m.Text = "Both move alike along the joint: it may be fixed along its whole length."
	case m.Class == SmallApart:
		m.Text = "The difference is small: such a joint usually holds; leave some give where you can."
	case m.Held:
		m.Text = "Fixed along its whole length this joint is likely to split or buckle: let one of the two move."
	default:
		m.Text = "The joint must stay free to move; fixed, it would be likely to split or buckle."
	}
	if m.Worst != m.Class && m.Class != WillSplit {
		m.Text += " Boards at the bounds of their kind, or with rings that are not known, may differ more."
	}
	if m.Class == MovesAlike {
		return
	}
	if !cross {
		m.LetMove = []string{
			"choose strips whose rings lie alike, and of one wood, for the two panels",
			"bring both to the same moisture content before they are joined",
			"fix one line only, and hold the rest with screws in slots",
		}
		return
	}
	m.LetMove = []string{
		"fix one line only, and hold the rest with buttons in a groove or screws in slots",
		"a sliding dovetail glued over a few centimetres at one end only",
		"turn the grain of one part, so that both move the same way",
	}
}

// Working shows how the difference was worked out.
func (m *Meeting) Working() moisture.Working {
	at, name := m.Dry, "dry"
	if m.Wet.Most > m.Dry.Most {
		at, name = m.Wet, "wet"
	}
	w := moisture.Working{
		{Formula: fmt.Sprintf("difference = what the first adds along the joint - what the second adds, in the season that parts them most (%s)", name), Values: []moisture.Value{mm(m.A.Name, at.A.Value), mm(m.B.Name, at.B.Value), mm("greatest between two places", m.Most), mm("with the bounds", m.AtWorst)}, Flag: moisture.Derived},
	}
	if m.A.Grain || m.B.Grain {
		w = slices.Insert(w, 0, moisture.Step{Formula: "along the grain: 0.1 to 0.2 % of the length over 30 % MC", Source: "AWC; Wood Handbook (FPL-GTR-190), ch. 4", Flag: moisture.Secondary})
	}
	w = append(w, moisture.Step{Formula: "strain if held = difference / length", Values: []moisture.Value{mm("length", m.Length), {Name: "strain", Number: m.Strain}}, Source: LimitText, Flag: moisture.Derived})
	if m.stiff > 0 {
		w = append(w, moisture.Step{Formula: "stress = stiffness across the grain x strain, the other part taken to give nothing", Values: []moisture.Value{{Name: "stiffness", Number: m.stiff, Unit: "MPa"}, {Name: "stress", Number: m.Stress.Value, Unit: "MPa"}}, Source: "Wood Handbook, Table 5-1 (ratios) and 5-3 (stiffness along the grain)", Flag: m.Stress.Flag})
	}
	return w
}
