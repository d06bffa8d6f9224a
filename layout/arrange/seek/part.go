package seek

import (
	"heartside/layout/arrange/look"
	"heartside/layout/face"
	"heartside/layout/together"
)

// part judges a panel that is seen as part of a face: its joints and what is
// wrong with it by themselves, what the eye sees of all on the whole face. The
// other panels lie as they do; they are trimmed once.
type part struct {
	own, whole *look.Judge
	rules      look.Rules
	face       *together.Face
	at         int // which of its panels
	reader     *together.Reader
}

func newPart(own *look.Judge, req *Request, members int) *part {
	p := &part{own: own, rules: req.Rules, face: req.In.Fork(), at: req.At, reader: &together.Reader{}}
	p.reader.SkipCoverage(true)
	p.reader.Remember(16 * (members + len(p.face.Panel.Strips)))
	p.whole = look.NewJudge(p.face.Panel, req.Look, req.Rules)
	return p
}

// Single implements scorer.
func (p *part) Single(s *face.Strip, place, places int) float64 {
	return p.own.Single(s, place, places)
}

// Pair implements scorer.
func (p *part) Pair(front, rear *face.Strip) float64 { return p.own.Pair(front, rear) }

// Points implements scorer.
func (p *part) Points(q *face.Panel, r *face.Reading) float64 {
	all := p.seen(q)
	return p.own.Own(q, r) + p.whole.Together(p.face.Panel, all)
}

// seen reads the whole face with the panel laid as q.
func (p *part) seen(q *face.Panel) *face.Reading {
	p.face.Lay(p.at, q.Strips)
	return p.reader.Read(p.face)
}

func (p *part) score(q *face.Panel, r *face.Reading) look.Score {
	all := p.seen(q)
	return look.Join(p.own.OwnScore(q, r), p.whole.TogetherScore(p.face.Panel, all))
}

// pointsBy judges for another look.
func (p *part) pointsBy(own *look.Judge, name look.Name, q *face.Panel, r *face.Reading) float64 {
	all := p.seen(q)
	return own.Own(q, r) + look.NewJudge(p.face.Panel, name, p.rules).Together(p.face.Panel, all)
}
