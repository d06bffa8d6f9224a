package command

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"heartside/app/render"
	"heartside/app/sheet"
)

// writeSheet writes the layout sheet of a project.
func writeSheet(args []string, out io.Writer) (int, error) {
	o, err := parse(args, "project", "o paper pages author", "")
	if err != nil {
		return Failed, err
	}
	path := o.flags["o"]
	if path == "" {
		return Failed, errors.New("no file to write: give -o FILE ending in " + strings.Join(sheet.Endings(), ", "))
	}
	paper, err := sheet.ParsePaper(o.flags["paper"])
	if err != nil {
		return Failed, err
	}
	pages, err := sheet.ParsePages(o.flags["pages"])
	if err != nil {
		return Failed, err
	}
	s, err := open(o.project)
	if err != nil {
		return Failed, err
	}
	defer s.Close()
	faces, err := render.LoadFaces()
	if err != nil {
		return Failed, err
	}
	in := sheet.FromSession(s, time.Now().Format("2006-01-02"), paper, faces)
	in.Pages, in.Author = pages, o.flags["author"]
	doc, err := sheet.Build(in)
	if err != nil {
		return Failed, err
	}
	files, err := sheet.Write(doc, path)
	for _, f := range files {
		fmt.Fprintln(out, f)
	}
	if err != nil {
		return Failed, err
	}
	return Done, nil
}
