// Demophotos makes the photographs of the demo project from its own boards:
// each face drawn by the grain of layout/grain with the zones the project
// states, and photographed by a modelled camera. The corners of each face are
// written back into the project.
//
// Run it from the top of the source tree after a change of the demo's boards:
//
//	go run ./app/demophotos -o assets/demo/photos
//
// With -set it writes instead a set of photographs of modelled boards with the
// truth about them (corners, mask, pith), for trying what finds boards and
// sapwood in photographs:
//
//	go run ./app/demophotos -set FOLDER -boards 24 -seed 7
package main

import (
	"context"
	"flag"
	"fmt"
	"os"
	"path/filepath"

	"heartside/model/file"
)

func main() {
	out := flag.String("o", "assets/demo/photos", "folder the photographs are written to; the project is project.yaml in the folder above")
	var o setOptions
	flag.StringVar(&o.folder, "set", "", "write a set of photographs with truth to this folder instead")
	flag.IntVar(&o.boards, "boards", 24, "how many boards the set has")
	flag.Uint64Var(&o.seed, "seed", 1, "the same seed gives the same set")
	flag.IntVar(&o.level, "level", 0, "1 easy to 5 hard; 0 mixed")
	flag.Float64Var(&o.mp, "mp", 3, "million pixels of a photograph of the set")
	flag.Parse()
	var err error
	if o.folder != "" {
		err = writeSet(context.Background(), o)
	} else {
		err = run(*out)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "demophotos:", err)
		os.Exit(2)
	}
}

func run(out string) error {
	path := filepath.Join(filepath.Dir(filepath.Clean(out)), "project.yaml")
	text, err := os.ReadFile(path)
	if err != nil {
		return fmt.Errorf("read the demo: %w; name the folder beside its project.yaml with -o", err)
	}
	p, _, err := file.Read(text, "project.yaml")
	if err != nil {
		return err
	}
	shots, err := take(p)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(out, 0o777); err != nil {
		return fmt.Errorf("photographs: %w", err)
	}
	for _, s := range shots {
		if err := os.WriteFile(filepath.Join(out, filepath.Base(s.name)), s.jpeg, 0o666); err != nil {
			return fmt.Errorf("photograph: %w", err)
		}
		if text, err = setCorners(text, s.name, s.corners); err != nil {
			return err
		}
	}
	if err := os.WriteFile(path, text, 0o666); err != nil {
		return fmt.Errorf("write the demo: %w", err)
	}
	return nil
}
