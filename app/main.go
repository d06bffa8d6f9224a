// Heartside plans panels glued up from boards with dark heartwood and light
// sapwood in them. Without a command it opens its window.
package main

import (
	"fmt"
	"io"
	"os"
	"runtime/debug"

	"fyne.io/fyne/v2"
	fyneapp "fyne.io/fyne/v2/app"

	"heartside/app/command"
	"heartside/app/ui"
)

const (
	id      = "heartside.planner"
	version = "0.1.0" // .run/package reads it here
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// run does what the arguments ask and returns the exit code: 0 done, 1 done
// with warnings, 2 error.
func run(args []string, stdout, stderr io.Writer) int {
	path, isCommand := split(args)
	if isCommand {
		return command.Run(args, stdout, stderr)
	}
	if path != "" {
		if _, err := os.Stat(path); err != nil {
			fmt.Fprintf(stderr, "heartside: %s is neither a command nor a project file that can be read: use check, sheet or zones, or give the path of a project\n", path)
			return 2
		}
	}
	if len(args) > 1 {
		fmt.Fprintf(stderr, "heartside: %d projects named: the window opens one at a time\n", len(args))
		return 2
	}
	if !ui.HasDisplay(os.Getenv) {
		fmt.Fprintln(stderr, "heartside:", ui.ErrNoDisplay)
		return 2
	}
	// Photographs come and go by tens of megabytes: the collector is to keep up
	// rather than let the program grow.
	if os.Getenv("GOMEMLIMIT") == "" {
		debug.SetMemoryLimit(280 << 20)
	}
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(50)
	}
	// The toolkit makes a folder of its own there, but not the one it stands in.
	if dir, err := os.UserCacheDir(); err == nil {
		_ = os.MkdirAll(dir, 0o700)
	}
	fyneapp.SetMetadata(fyne.AppMetadata{
		ID: id, Name: "Heartside", Version: version,
		Migrations: map[string]bool{"fyneDo": true},
	})
	if err := ui.Run(fyneapp.NewWithID(id), ui.Start{Path: path, Env: os.Getenv, Stderr: stderr}); err != nil {
		fmt.Fprintln(stderr, "heartside:", err)
		return 2
	}
	return 0
}

// split tells a command from the path of a project to open.
func split(args []string) (path string, isCommand bool) {
	if len(args) == 0 {
		return "", false
	}
	first := args[0]
	if command.Is(first) || len(first) > 1 && first[0] == '-' {
		return "", true
	}
	return first, false
}
