package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"time"
)

func main() {
	if err := run(os.Args[1:], os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, "drive:", err)
		os.Exit(1)
	}
}

// plan is what is asked for.
type plan struct {
	program, project, home string
	seed                   uint64
	long                   time.Duration
	round                  int // gestures
	pause                  time.Duration
	window                 size
}

func run(args []string, out io.Writer) error {
	var p plan
	f := flag.NewFlagSet("drive", flag.ContinueOnError)
	f.StringVar(&p.program, "program", "", "the program to drive")
	f.StringVar(&p.project, "project", "", "a project to work on; it is not written to")
	f.StringVar(&p.home, "home", "", "an empty folder for what the program keeps")
	f.Uint64Var(&p.seed, "seed", 1, "of the gestures")
	f.DurationVar(&p.long, "for", 30*time.Minute, "how long")
	f.IntVar(&p.round, "round", 250, "gestures between two looks at undo")
	f.DurationVar(&p.pause, "pause", 60*time.Millisecond, "between two gestures")
	f.IntVar(&p.window.width, "width", 1280, "of the window, pixels")
	f.IntVar(&p.window.height, "height", 760, "of the window, pixels")
	if err := f.Parse(args); err != nil {
		return err
	}
	p.window.top = 60 // menus, and buttons that open and save
	if p.program == "" || p.project == "" || p.home == "" {
		return errors.New("name -program, -project and -home")
	}
	return p.drive(out)
}

// level is what is held after a round, with everything undone.
type level struct{ goroutines, heap, resident int }

func (p plan) drive(out io.Writer) error {
	prog, err := start(p.program, p.project, p.home, p.window)
	if err != nil {
		return err
	}
	r := rand.New(rand.NewPCG(p.seed, 0))
	begun := prog.seen.get("mark")
	counts := map[string]int{}
	var levels []level
	total, undone := 0, 0
	for end := time.Now().Add(p.long); time.Now().Before(end); {
		n, err := p.oneRound(prog, r, counts, end)
		total += n
		if err == nil {
			var steps int
			steps, err = p.undoAll(prog, begun)
			undone += steps
		}
		if err != nil {
			if shot := prog.shot(p.home); shot != "" {
				fmt.Fprintln(out, "the screen is in", shot)
			}
			fmt.Fprintln(out, "the program said last:\n"+prog.seen.tail())
			said := prog.stop()
			return fmt.Errorf("seed %d, after %d gestures: %w", p.seed, total, errors.Join(err, said))
		}
		levels = append(levels, prog.rest())
		l := levels[len(levels)-1]
		fmt.Fprintf(out, "round %d: %d gestures, %d undone, %d goroutines, heap %d KiB, resident %d MiB\n", len(levels), total, undone, l.goroutines, l.heap>>10, l.resident)
	}
	if err := prog.stop(); err != nil {
		return fmt.Errorf("seed %d: %w", p.seed, err)
	}
	var kinds []string
	for _, k := range sorted(counts) {
		kinds = append(kinds, fmt.Sprintf("%d of %s", counts[k], k))
	}
	fmt.Fprintf(out, "seed %d: %d gestures (%s) in %d rounds, %d changes undone, every round back at its start\n", p.seed, total, strings.Join(kinds, ", "), len(levels), undone)
	return steady(levels)
}

// oneRound makes the gestures of a round.
func (p plan) oneRound(prog *program, r *rand.Rand, counts map[string]int, end time.Time) (n int, err error) {
	for n < p.round && time.Now().Before(end) {
		if r.IntN(6) == 0 { // a dialog or a page swallows what comes after it
			if err := prog.do("key Escape", "key Escape"); err != nil {
				return n, err
			}
		}
		lines, what := gesture(r, p.window, prog.seen.places())
		if err := prog.do(lines...); err != nil {
			return n, err
		}
		counts[what]++
		n++
		time.Sleep(p.pause)
		if !prog.alive() {
			return n, fmt.Errorf("the program ended (%v) after %q", prog.exit, strings.Join(lines, "; "))
		}
		for _, q := range prog.seen.asked() {
			// These lead to other projects and files.
			if slices.Contains([]string{"guard", "save", "open", "export", "photo", "photos"}, q) || strings.HasSuffix(q, "photos") {
				if err := prog.do("key Escape", "key Escape"); err != nil {
					return n, err
				}
			}
		}
	}
	return n, nil
}

// undoAll goes back to the panels and undoes everything, and returns how many
// changes that were.
func (p plan) undoAll(prog *program, begun string) (steps int, err error) {
	if err := prog.do("mouseup 1", "mouseup 3"); err != nil {
		return 0, err
	}
	for range 8 { // texts, dialogs, pages and gestures
		if err := prog.key("Escape"); err != nil {
			return 0, err
		}
		time.Sleep(150 * time.Millisecond)
	}
	for prog.seen.get("undo") != "0" {
		was := prog.seen.get("undo")
		if err := prog.key("ctrl+z"); err != nil {
			return steps, err
		}
		if !prog.wait(20*time.Second, func() bool { return prog.seen.get("undo") != was }) {
			if !prog.alive() {
				return steps, fmt.Errorf("the program ended (%v) while undoing", prog.exit)
			}
			return steps, fmt.Errorf("undo stands still at %s changes, on page %q", was, prog.seen.onPage())
		}
		steps++
	}
	if got := prog.seen.get("mark"); got != begun {
		return steps, fmt.Errorf("with everything undone the project is %s, it began as %s", got, begun)
	}
	return steps, nil
}

// rest waits for what is under way to end, and says what is held then.
func (prog *program) rest() level {
	_, _, told := prog.seen.level()
	prog.wait(45*time.Second, func() bool { _, _, n := prog.seen.level(); return n >= told+2 })
	g, h, _ := prog.seen.level()
	return level{g, h, prog.resident()}
}

// steady judges whether what is held grows from round to round. Pictures of wood are
// kept up to a bound, which fills in the first half; what the second half adds to
// that is a leak. The allowances are engineering choices.
func steady(list []level) error {
	if len(list) < 4 {
		return nil
	}
	middle, last := list[len(list)/2], list[len(list)-1]
	if last.goroutines > middle.goroutines+8 {
		return fmt.Errorf("goroutines grow: %d in the middle, %d at last", middle.goroutines, last.goroutines)
	}
	if last.heap > middle.heap*5/4+32<<20 {
		return fmt.Errorf("memory grows: %d KiB in the middle, %d KiB at last", middle.heap>>10, last.heap>>10)
	}
	return nil
}

func sorted[V any](m map[string]V) []string {
	var out []string
	for k := range m {
		out = append(out, k)
	}
	slices.Sort(out)
	return out
}
