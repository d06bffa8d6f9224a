package command

import (
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"heartside/app/session"
	"heartside/model"
	"heartside/model/file"
)

// names are the commands there are, for the usage line.
var names = [...]string{"check", "sheet", "arrange", "zones"}

// Is reports whether name is a command rather than a project to open.
func Is(name string) bool {
	for _, n := range names {
		if n == name {
			return true
		}
	}
	return name == "help" || name == "-h" || name == "--help"
}

const usage = `heartside [PROJECT]                      open the window
heartside check PROJECT [--json]         readings and warnings of every panel
heartside sheet PROJECT -o FILE.pdf|.png|.svg|.csv|.yaml [--paper a4|letter|a3|tabloid]
                [--pages panel,boards,fit,labels,client,yard,joints,sources] [--author NAME]
                                         write the layout sheet, or some of its pages
heartside arrange PROJECT --panel ID [--look LOOK] [--spares] [--no-roll] [--no-turn]
                  [--seconds S] [--seed N] [-o OUT.yaml] [--json]
                                         the best orders of a panel's strips
heartside zones PHOTO --size LENGTHxWIDTH [--corners x,y,x,y,x,y,x,y] -o MASK.png [--json]
                                         square a photograph and split it
Exit codes: 0 done, 1 done with warnings (check), 2 error.
`

// Run carries out a command and returns its exit code.
func Run(args []string, stdout, stderr io.Writer) int {
	if len(args) == 0 {
		fmt.Fprint(stderr, usage)
		return Failed
	}
	var code int
	var err error
	switch args[0] {
	case "check":
		code, err = check(args[1:], stdout)
	case "sheet":
		code, err = writeSheet(args[1:], stdout)
	case "arrange":
		code, err = arrange(args[1:], stdout)
	case "zones":
		code, err = zones(args[1:], stdout)
	case "help", "-h", "--help":
		fmt.Fprint(stdout, usage)
		return Done
	default:
		err = fmt.Errorf("%q is no command: use %s", args[0], strings.Join(names[:], ", "))
	}
	if err != nil {
		fmt.Fprintln(stderr, "heartside:", message(err))
		return Failed
	}
	return code
}

// message keeps the lines of a file's errors apart.
func message(err error) string {
	var list file.Errors
	if errors.As(err, &list) {
		return list.Error()
	}
	return err.Error()
}

// options are the words of a command line taken apart.
type options struct {
	project string
	flags   map[string]string
}

// parse takes apart a command's words about a what. with names the flags that take a
// value, plain those that do not.
func parse(args []string, what, with, plain string) (options, error) {
	o := options{flags: map[string]string{}}
	for i := 0; i < len(args); i++ {
		a := args[i]
		if !strings.HasPrefix(a, "-") {
			if o.project != "" {
				return o, fmt.Errorf("two %ss named, %s and %s: name one", what, o.project, a)
			}
			o.project = a
			continue
		}
		name, value, has := strings.Cut(strings.TrimLeft(a, "-"), "=")
		switch {
		case listed(plain, name) && !has:
			o.flags[name] = "yes"
		case listed(with, name):
			if !has {
				if i+1 >= len(args) {
					return o, fmt.Errorf("%s needs a value after it", a)
				}
				i++
				value = args[i]
			}
			o.flags[name] = value
		default:
			return o, fmt.Errorf("%s is not known here: use %s", a, strings.TrimSpace("--"+strings.ReplaceAll(strings.TrimSpace(with+" "+plain), " ", ", --")))
		}
	}
	if o.project == "" {
		return o, fmt.Errorf("no %s named: give the path of a %s file", what, what)
	}
	return o, nil
}

func listed(list, name string) bool {
	for _, n := range strings.Fields(list) {
		if n == name {
			return true
		}
	}
	return false
}

// open reads a project with its pictures. Where a panel does not say which
// wood it wants and its boards differ, nothing can be judged.
func open(path string) (*session.Session, error) {
	s := session.New(session.Blank(), session.Options{})
	if err := s.Open(path); err != nil {
		return nil, err
	}
	for _, r := range model.Problems(s.Project()) {
		if r.Rule == model.RuleWanted {
			s.Close()
			return nil, fmt.Errorf("%s: %w", filepath.Base(path), &r)
		}
	}
	return s, nil
}
