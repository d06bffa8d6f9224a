package ui

import (
	"path/filepath"

	"heartside/app/intake"
	"heartside/app/session"
	"heartside/model/say"
)

// takePictures puts pictures into the project, copied beside it first where
// the maker wants that, and turns to the faces; then, where given, follows.
func (w *Window) takePictures(list []taking, then func()) {
	in := func(takings []session.Taking) {
		w.nudge.settle()
		if err := w.ses.TakeIn(takings); err != nil {
			w.fail(say.T("The photographs could not be taken in"), err)
			return
		}
		w.rack.content()
		w.rack.tell("")
		if then != nil {
			then()
		}
		w.rack.step = stepFaces
		w.showRack()
	}
	project := w.ses.Path()
	if !w.set.copies() || project == "" {
		in(w.takings(list))
		return
	}
	w.say(say.F("Copying %s into the folder photos…", say.Count(len(list), say.T("photograph"), say.T("photographs"))))
	dir := filepath.Dir(project)
	go func() {
		var out []session.Taking
		var err error
		for _, t := range list {
			if w.work.Err() != nil {
				return
			}
			var name string
			if name, err = intake.CopyBeside(dir, t.path); err != nil {
				break
			}
			out = append(out, session.Taking{Place: t.place, Name: name})
		}
		w.post(func() {
			switch {
			case w.work.Err() != nil || w.ses.Path() != project:
			case err != nil:
				w.fail(say.T("The photographs could not be copied; none was taken in"), err)
			default:
				w.say("")
				in(out)
			}
		})
	}()
}
