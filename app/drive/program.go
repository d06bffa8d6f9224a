package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"time"
)

// program is the program under way, and the hand that works its window.
type program struct {
	cmd    *exec.Cmd
	seen   *watch
	window string
	hand   io.WriteCloser // xdotool's lines
	tool   *exec.Cmd
	ended  chan struct{}
	exit   error
}

// start starts the program on a project, in a home of its own, and waits until
// its window can be worked.
func start(path, project, home string, s size) (*program, error) {
	p := &program{seen: newWatch(), ended: make(chan struct{})}
	p.cmd = exec.Command(path, project)
	p.cmd.Env = append(os.Environ(), "HOME="+home, "XDG_CONFIG_HOME="+home+"/.config", "XDG_CACHE_HOME="+home+"/.cache", "XDG_STATE_HOME="+home+"/.state",
		"HEARTSIDE_TRACE=load", "FYNE_PLATFORM=x11", "FYNE_SCALE=1", "LIBGL_ALWAYS_SOFTWARE=1")
	said, err := p.cmd.StderrPipe()
	if err != nil {
		return nil, err
	}
	if err := p.cmd.Start(); err != nil {
		return nil, err
	}
	go func() {
		p.seen.follow(said)
		p.exit = p.cmd.Wait()
		close(p.ended)
	}()
	if !p.wait(60*time.Second, func() bool { return p.seen.isReady() && p.find() }) {
		return nil, errors.Join(errors.New("the window did not come up"), p.stop())
	}
	if err := p.reach(s); err != nil {
		return nil, errors.Join(err, p.stop())
	}
	if !p.wait(60*time.Second, func() bool { return p.seen.get("mark") != "" }) {
		return nil, errors.Join(errors.New("the program shows no panel"), p.stop())
	}
	return p, nil
}

func (p *program) find() bool {
	out, _ := exec.Command("xdotool", "search", "--onlyvisible", "--pid", strconv.Itoa(p.cmd.Process.Pid)).Output()
	f := strings.Fields(string(out))
	if len(f) == 0 {
		return false
	}
	p.window = f[len(f)-1]
	return true
}

// reach sizes the window and puts a hand on it.
func (p *program) reach(s size) error {
	if err := exec.Command("xdotool", "windowactivate", "--sync", p.window, "windowmove", p.window, "0", "0", "windowsize", p.window, strconv.Itoa(s.width), strconv.Itoa(s.height)).Run(); err != nil {
		return fmt.Errorf("the window cannot be moved: %w", err)
	}
	p.tool = exec.Command("xdotool", "-")
	var err error
	if p.hand, err = p.tool.StdinPipe(); err != nil {
		return err
	}
	return p.tool.Start()
}

// do works the window.
func (p *program) do(lines ...string) error {
	for _, l := range lines {
		if _, err := fmt.Fprintln(p.hand, strings.ReplaceAll(l, "$window", p.window)); err != nil {
			return fmt.Errorf("xdotool: %w", err)
		}
	}
	return nil
}

func (p *program) key(k string) error { return p.do("key --clearmodifiers " + k) }

// alive reports whether the program still runs.
func (p *program) alive() bool {
	select {
	case <-p.ended:
		return false
	default:
		return true
	}
}

// wait looks ten times a second for what is to come about.
func (p *program) wait(limit time.Duration, what func() bool) bool {
	for end := time.Now().Add(limit); time.Now().Before(end); time.Sleep(100 * time.Millisecond) {
		if what() {
			return true
		}
		if !p.alive() {
			return false
		}
	}
	return false
}

// resident is the memory of the process that is in use, MiB.
func (p *program) resident() int {
	data, err := os.ReadFile(fmt.Sprintf("/proc/%d/statm", p.cmd.Process.Pid))
	if err != nil {
		return 0
	}
	f := strings.Fields(string(data))
	if len(f) < 2 {
		return 0
	}
	pages, _ := strconv.Atoi(f[1])
	return pages * os.Getpagesize() >> 20
}

// shot takes a picture of the screen into a folder, where ImageMagick is there; it
// returns its path, else "".
func (p *program) shot(folder string) string {
	path := filepath.Join(folder, "failure.png")
	if exec.Command("import", "-window", "root", path).Run() != nil {
		return ""
	}
	return path
}

// stop ends the program; what it still has to say is in the error.
func (p *program) stop() error {
	if p.hand != nil {
		p.hand.Close()
		p.tool.Wait()
	}
	p.cmd.Process.Kill()
	<-p.ended
	if c := p.seen.crash(); c != "" {
		return errors.New(c)
	}
	return nil
}
