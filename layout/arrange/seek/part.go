package seek

import (
	"heartside/layout/arrange/look"
	"heartside/layout/face"
)

// part judges a panel that is seen as part of a face: its joints by
// themselves, what speaks of the whole on the whole face.
type part struct {
	own, whole *look.Judge
	rules      look.Rules
	around     func(*face.Panel) *face.Panel
	reader     *face.Reader
}

func newPart(own *look.Judge, req *Request, members int) *part {
	p := &part{own: own, rules: req.Rules, around: req.Around, reader: face.NewReader()}
	p.reader.SkipCoverage(true)
	all := req.Around(&req.Panel)
	p.reader.Remember(16 * (members + len(all.Strips)))
	p.whole = look.NewJudge(all, req.Look, req.Rules)
	return p
}

// Single implements scorer.
func (p *part) Single(s *face.Strip, place, places int) float64 {
	return p.own.Single(s, place, places)
}

// Pair implements scorer.
func (p *part) Pair(front, rear *face.Strip) float64 { return p.own.Pair(front, rear) }

// Points implements scorer; the panel's own reading does not count.
func (p *part) Points(q *face.Panel, _ *face.Reading) float64 {
	all := p.around(q)
	return p.own.Local(q) + p.whole.Whole(all, p.reader.Read(all))
}

// seen reads the whole face.
func (p *part) seen(q *face.Panel) *face.Reading { return p.reader.Read(p.around(q)) }

func (p *part) score(q *face.Panel) look.Score {
	all := p.around(q)
	return p.own.ScoreIn(q, p.whole, all, p.reader.Read(all))
}

// pointsBy judges for another look.
func (p *part) pointsBy(own *look.Judge, name look.Name, q *face.Panel) float64 {
	all := p.around(q)
	return own.Local(q) + look.NewJudge(all, name, p.rules).Whole(all, p.reader.Read(all))
}
