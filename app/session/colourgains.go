package session

import (
	"context"
	"fmt"
	"image"
	"slices"

	"heartside/app/intake"
	"heartside/app/picture"
	"heartside/layout/photo/light"
	"heartside/model"
	"heartside/model/say"
)

// facing is a photographed face as the goroutines that work know it.
type facing struct {
	order
	place intake.Place
	face  model.Face // as it was when the work began
}

// gain is the white balance found for a face.
type gain struct {
	facing
	white *[3]float64
	tones []model.Tone
	look  *look
}

// photographed lists the faces that have a photograph and its corners.
func (s *Session) photographed() []intake.Place {
	var out []intake.Place
	for _, b := range s.Committed().Boards {
		for i := range b.Faces {
			if _, ok := keyOfPicture(b, i); ok {
				out = append(out, intake.Place{Board: b.ID, Part: intake.Part(i + 1)})
			}
		}
	}
	return out
}

// facings takes faces for work elsewhere; those without a photograph or its
// corners are passed over.
func (s *Session) facings(places []intake.Place) []facing {
	var out []facing
	for _, p := range places {
		b, i := s.Committed().Board(p.Board), p.Part.Face()-1
		if b == nil || i < 0 {
			continue
		}
		if k, ok := keyOfPicture(b, i); ok {
			out = append(out, facing{order{s.pics.shots[k], k, s.pics.from}, p, b.Faces[i]})
		}
	}
	return out
}

// decode reads the photograph as it was taken.
func (p *facing) decode(ctx context.Context) (image.Image, error) {
	r, err := p.from.Open(p.key.name)
	if err != nil {
		return nil, plainError(err)
	}
	defer r.Close()
	img, _, err := picture.Decode(ctx, r, picture.Limits{})
	return img, err
}

// ground samples what lies about the board in the photograph.
func (p *facing) ground(ctx context.Context) (light.BackgroundSample, error) {
	img, err := p.decode(ctx)
	if err != nil {
		return light.BackgroundSample{}, err
	}
	return light.Background(img, p.key.view().Corners)
}

// balance finds gains, and the colours that zones have with them, in the
// background and makes them one entry of the history.
func (s *Session) balance(ctx context.Context, verb, reference string, done func(Balanced, error), find func(context.Context) ([]gain, []string, error)) {
	ctx, stop := context.WithCancel(ctx)
	open, shelf := s.work, s.pics.shelf
	unhook := context.AfterFunc(open, stop)
	work := func() func() {
		gains, left, err := find(ctx)
		for i := range gains {
			if err == nil {
				err = gains[i].measure(ctx, shelf)
			}
		}
		return func() {
			unhook()
			if err == nil {
				err = ctx.Err()
			}
			stop()
			out := Balanced{Reference: reference, Left: left}
			if err == nil {
				out.Done, err = s.setGains(verb, reference, gains)
			}
			done(out, err)
		}
	}
	if s.opt.Post == nil {
		work()()
		return
	}
	go func() {
		f := work()
		s.opt.Post(func() {
			if open.Err() == nil { // else the project is another one
				f()
			}
		})
	}()
}

// measure finds the colours that the zones have with the new white balance.
func (g *gain) measure(ctx context.Context, s *shelf) error {
	b := model.Board{Length: g.key.length, Width: g.key.width}
	b.Faces[0] = g.face
	b.Faces[0].White = g.white
	spec := specOf(&b, 0)
	pic, left, note, err := s.picture(ctx, g.order, &spec, false)
	if err != nil {
		return fmt.Errorf("%v: %s", g.place, trouble(g.key.name, err))
	}
	g.look = spec.see(pic, left, note)
	if spec.split || spec.known && len(g.face.Tones) > 0 {
		mask, err := intake.MaskOf(&g.face, g.key.length, g.key.width)
		if err != nil {
			return fmt.Errorf("%v: %w", g.place, err)
		}
		g.tones = intake.TonesOf(ctx, pic, mask)
	}
	return ctx.Err()
}

// setGains makes gains part of the project. Faces whose photograph was changed
// since the work began are left alone.
func (s *Session) setGains(verb, reference string, gains []gain) ([]intake.Place, error) {
	changed := map[string]*model.Board{}
	var done []intake.Place
	for i := range gains {
		g := &gains[i]
		at := s.Committed().Board(g.place.Board)
		if at == nil {
			continue
		}
		n := g.place.Part.Face() - 1
		if k, ok := keyOfPicture(at, n); !ok || k != g.key {
			continue
		}
		b := changed[at.ID]
		if b == nil {
			c := *at
			b = &c
			changed[at.ID] = b
		}
		f := &b.Faces[n]
		f.White, f.Reference = g.white, reference
		if sameZones(f, &g.face) {
			f.Tones = g.tones
			if sh := s.pics.shots[g.key]; sh != nil { // seen at once: nothing flickers
				s.pics.put(sh, g.look.spec.digest, g.look)
			}
		}
		done = append(done, g.place)
	}
	if len(done) == 0 {
		return nil, say.Error("the photographs were changed meanwhile: balance them again")
	}
	e := model.SetBoards{Verb: verb}
	for _, b := range s.Committed().Boards {
		if c := changed[b.ID]; c != nil {
			e.Boards = append(e.Boards, c)
		}
	}
	return done, s.Commit(e)
}

// sameZones reports whether two values of a face show the same wood.
func sameZones(a, b *model.Face) bool {
	return a.Base == b.Base && looked(a) == looked(b) && slices.Equal(a.Outline, b.Outline) &&
		slices.EqualFunc(a.Zones, b.Zones, func(a, b model.Zone) bool { return a.Kind == b.Kind && slices.Equal(a.Polygon, b.Polygon) })
}
