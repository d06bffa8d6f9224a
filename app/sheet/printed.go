package sheet

import (
	"fmt"
	"hash/fnv"
	"regexp"
	"strings"

	"heartside/app/render"
	"heartside/model"
)

// numbered is how a page says which of how many it is: that another page came
// in makes none out of date.
var numbered = regexp.MustCompile(`"\d+ of \d+"`)

// Marks returns the pages of a sheet as they are remembered once they are
// printed: each with a short mark of all that is drawn on it, but for the date,
// the sheet's code and the number of the page.
func (d *Document) Marks() []model.PrintedPage {
	code := Code(d.in.Project)
	var out []model.PrintedPage
	part := map[[2]string]int{}
	for _, p := range d.Pages {
		of := p.Panel
		if of == "" {
			of = p.Board
		}
		at := [2]string{string(p.Kind), of}
		part[at]++
		out = append(out, model.PrintedPage{Page: at[0], Of: of, Part: part[at], Paper: string(d.in.Paper), Sheet: code, Mark: p.mark(code, d.in.Date)})
	}
	return out
}

// mark is a short name of what a page shows. The top line, which is set smaller
// where date and code take more room, is not of it.
func (p *Page) mark(code, date string) string {
	var r render.Recorder
	p.Draw(&r)
	h := fnv.New64a()
	top := margin + p.ink.faces.CapHeight(boldStyle(title)) + 0.1
	for _, line := range strings.Split(r.String(), "\n") {
		text := strings.Contains(line, "text ")
		var x, y float64
		if n, _ := fmt.Sscanf(strings.TrimSpace(line), "text %f,%f", &x, &y); n == 2 && y < top {
			continue
		}
		if text && (strings.Contains(line, code) || date != "" && strings.Contains(line, date) || numbered.MatchString(line)) {
			continue
		}
		fmt.Fprintln(h, line)
	}
	return fmt.Sprintf("%016x", h.Sum64())
}
