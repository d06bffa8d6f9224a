package ui

import (
	"context"
	"image"
	"slices"

	"heartside/app/intake"
	"heartside/app/picture"
	"heartside/layout/geom"
	"heartside/layout/photo"
	"heartside/layout/photo/outline"
	"heartside/layout/photo/split"
	"heartside/model/say"
)

// faceEditor is what corrects the split of a face; see intake.Editor.
type faceEditor interface {
	Mask() *photo.Mask
	Result() *split.Result
	Changed() intake.Change
	Touched() bool
	CanRedo() bool
	UndoLabel() string
	Undo() bool
	Redo() bool
	Stroke(ctx context.Context, kind photo.Label, points []geom.Point, width float64) error
	NearOnly() bool
	Brush(kind photo.Label, points []geom.Point, width float64) error
	Fill(kind photo.Label, ring geom.Polygon) error
	Straight(a, b geom.Point, reach float64) error
	Smooth(mm float64) error
	All(kind photo.Label) error
	Suggested() float64
	TakeSuggested() error
	Afresh(ctx context.Context) error
	Outline(ctx context.Context, ring geom.Polygon) error
	Ring() (ring geom.Polygon, traced bool, err error)
}

var _ faceEditor = (*intake.Editor)(nil)

// faceMeans are the long works of the page.
type faceMeans struct {
	open   func(ctx context.Context, path string) (image.Image, error)
	find   func(ctx context.Context, img image.Image, length, width float64) (*outline.Found, error)
	refine func(ctx context.Context, img image.Image, view photo.View, length, width float64) (*outline.Found, error)
	paper  func(ctx context.Context, img image.Image, view photo.View, paper outline.Paper, thickness float64) (paperSize, error)
	editor func(ctx context.Context, s *photo.Squared, mask *photo.Mask, ring geom.Polygon) (faceEditor, error)
	waney  func(ctx context.Context, img image.Image, ask intake.Ask) (*intake.Waney, error)
	trace  func(ctx context.Context, img image.Image, view photo.View, length, width float64) (ring geom.Polygon, sure float64, err error)
}

func realMeans() faceMeans {
	return faceMeans{
		open: func(ctx context.Context, path string) (image.Image, error) {
			f, err := picture.Open(path)
			if err != nil {
				return nil, err
			}
			defer f.Close()
			img, _, err := picture.Decode(ctx, f, picture.Limits{})
			return img, err
		},
		find: outline.Find, refine: outline.Refine, paper: measurePaper,
		waney: intake.LayWaney, trace: intake.TraceFace,
		editor: func(ctx context.Context, s *photo.Squared, mask *photo.Mask, ring geom.Polygon) (faceEditor, error) {
			e, err := intake.OpenEditor(ctx, s, mask, ring)
			if err != nil {
				return nil, err // no editor in an interface
			}
			return e, nil
		},
	}
}

// faceNow is a face as the last act left it.
type faceNow struct {
	mask    *photo.Mask
	result  *split.Result
	changed intake.Change
	waney   bool    // some of the face is no wood
	doubted float64 // share of the face that had better be called not sure
	touched bool
	canRedo bool
	label   string // of the last act
	taught  bool   // the last act was a stroke that teaches
}

// faceWork does the acts on a face one after another beside the window. All
// of it but the acts belongs to the toolkit's goroutine.
type faceWork struct {
	ctx  context.Context
	post func(func())
	ed   faceEditor
	jobs []faceJob
	now  faceNow
	then func(err error) // after each act
}

type faceJob struct {
	teaches bool
	act     func(ctx context.Context, ed faceEditor) error
	then    func()
}

// newFaceWork starts from an editor that is made ready; it is read here, as
// nothing else has it yet.
func newFaceWork(ctx context.Context, post func(func()), ed faceEditor) *faceWork {
	k := &faceWork{ctx: ctx, post: post, ed: ed}
	k.now = readFace(ed)
	return k
}

func readFace(ed faceEditor) faceNow {
	return faceNow{waney: slices.Contains(ed.Mask().Pix, photo.Outside), mask: ed.Mask(), result: ed.Result(), changed: ed.Changed(), doubted: ed.Suggested(), touched: ed.Touched(), canRedo: ed.CanRedo(), label: ed.UndoLabel()}
}

// do has an act done after those before it.
func (k *faceWork) do(j faceJob) {
	k.jobs = append(k.jobs, j)
	if len(k.jobs) == 1 {
		k.start()
	}
}

func (k *faceWork) busy() bool { return len(k.jobs) > 0 }

func (k *faceWork) start() {
	j := k.jobs[0]
	go func() {
		err := guarded(func() error { return j.act(k.ctx, k.ed) })
		now := readFace(k.ed)
		k.post(func() {
			if k.ctx.Err() != nil {
				return
			}
			now.taught = j.teaches && err == nil
			k.now, k.jobs = now, k.jobs[1:]
			if len(k.jobs) > 0 {
				k.start()
			}
			if j.then != nil && err == nil {
				j.then()
			}
			k.then(err)
		})
	}()
}

// guarded turns a panic in the reading of a picture into an error: the maker's
// work on the face stays.
func guarded(f func() error) (err error) {
	defer func() {
		if p := recover(); p != nil {
			err = say.Errorf("this picture cannot be worked on (%v); take the last act back, or another picture", p)
		}
	}()
	return f()
}
