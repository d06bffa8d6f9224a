package ui

import (
	"encoding/json"
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/model/say"
)

// keyJobs holds the maker's past jobs, the newest last, keyJobsAside a list that
// could not be read.
const (
	keyJobs      = "past-jobs"
	keyJobsAside = "past-jobs-set-aside"
)

// mostJobs is how many past jobs are kept; older ones say little of how one works
// now. An engineering choice.
const mostJobs = 200

// jobs are the maker's past jobs. What cannot be read is set aside.
func (s settings) jobs() []session.PastJob {
	var out []session.PastJob
	text := s.p.String(keyJobs)
	if text == "" {
		return nil
	}
	if err := json.Unmarshal([]byte(text), &out); err != nil {
		s.p.SetString(keyJobsAside, text)
		s.p.RemoveValue(keyJobs)
		return nil
	}
	return slices.DeleteFunc(out, func(j session.PastJob) bool { return !(j.Bought > 0) || !(j.Finished >= 0) })
}

// jobsAside reports whether a list of past jobs could not be read.
func (s settings) jobsAside() bool { return s.p.String(keyJobsAside) != "" }

func (s settings) keepJobs(list []session.PastJob) {
	data, err := json.Marshal(list[max(0, len(list)-mostJobs):])
	if err == nil { // of numbers and words: it is
		s.p.SetString(keyJobs, string(data))
	}
}

// jobsForm shows the past jobs and keeps or removes some.
type jobsForm struct {
	w     *Window
	list  []session.PastJob
	ticks map[string]*tick
	said  *widget.Label
	keep  *pageButton
	past  *fyne.Container
	then  func() // after a change
}

// jobsAsk shows the past jobs.
func (w *Window) jobsAsk(then func()) *jobsForm {
	f := &jobsForm{w: w, list: w.set.jobs(), ticks: map[string]*tick{}, said: wrapped("", widget.MediumImportance), past: container.New(stackLayout{}), then: then}
	cut := w.ses.CutBoards()
	var boards []fyne.CanvasObject
	for _, b := range w.ses.Project().Boards {
		f.ticks[b.ID] = newTick(w, b.ID, slices.Contains(cut, b.ID), f.figure)
		boards = append(boards, f.ticks[b.ID])
	}
	f.keep = newPageButton(w, say.T("Keep this job"), f.add)
	body := container.New(stackLayout{}, snug(bold(say.T("This job"))),
		snug(wrapped(say.T("Boards that it took, whole. Leave out what goes back to the rack for another job."), widget.LowImportance)),
		flow(boards), snug(f.said), flow([]fyne.CanvasObject{f.keep}), snug(bold(say.T("Jobs that are kept"))), f.past)
	f.figure()
	f.fill()
	w.ask(question{title: say.T("Past jobs"), body: body, size: fyne.NewSize(640, 520), tall: true})
	return f
}

// job is this job as it is ticked.
func (f *jobsForm) job() (session.PastJob, error) {
	var ids []string
	for _, b := range f.w.ses.Project().Boards {
		if t := f.ticks[b.ID]; t != nil && t.Checked {
			ids = append(ids, b.ID)
		}
	}
	return f.w.ses.ThisJob(ids, time.Now())
}

// figure tells what would be kept.
func (f *jobsForm) figure() {
	if f.keep == nil {
		return
	}
	j, err := f.job()
	if err != nil {
		f.said.SetText("⚠ " + ended(sentence(say.Err(err))))
	} else {
		f.said.SetText(f.w.ses.JobWords(&j) + ".")
	}
	f.keep.greyed(err != nil)
}

func (f *jobsForm) add() {
	j, err := f.job()
	if err != nil {
		return
	}
	f.list = append(f.list, j)
	f.keep.greyed(true) // once is enough
	f.changed()
}

func (f *jobsForm) changed() {
	f.w.set.keepJobs(f.list)
	f.fill()
	f.then()
}

// fill lists the jobs, the newest first.
func (f *jobsForm) fill() {
	f.past.Objects = nil
	if f.w.set.jobsAside() {
		f.past.Add(line(say.F("⚠ A list of past jobs could not be read. It is kept in the program's preferences under “%s”, and a new list is begun.", keyJobsAside), widget.WarningImportance))
	}
	if len(f.list) == 0 {
		f.past.Add(line(say.T("None yet. Keep each job when it is done: what was really lost is then what is reckoned with."), widget.LowImportance))
	}
	for i := len(f.list) - 1; i >= 0; i-- {
		text := least(34, wrapped(f.w.ses.JobWords(&f.list[i])+"; "+say.Date(f.list[i].Done), widget.MediumImportance))
		drop := newPageButton(f.w, say.T("Remove"), func() {
			f.list = slices.Delete(slices.Clone(f.list), i, i+1)
			f.changed()
		})
		drop.Importance = widget.LowImportance
		f.past.Add(flow([]fyne.CanvasObject{text, drop}, text))
	}
	f.past.Refresh()
	if f.w.asks != nil {
		settled(f.w.asks.scroll)
	}
}
