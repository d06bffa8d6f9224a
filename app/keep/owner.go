package keep

import (
	"fmt"
	"os"
	"os/user"
	"path/filepath"
	"strings"
)

// Owner is the running program that a lock or a journal belongs to.
type Owner struct {
	PID   int    `json:"pid"`
	Start string `json:"start"` // when the process began, as the system counts, "" unknown
	Space string `json:"space"` // in which the PID counts, "" unknown
	Boot  string `json:"boot"`  // of the machine, "" unknown
	Host  string `json:"host"`
	User  string `json:"user"`
}

// Life says whether a program still runs.
type Life int

// What can be known of a program.
const (
	Unknown Life = iota // it runs on another machine, or where it cannot be seen
	Living
	Dead
)

// Machine is what is asked of the computer about running programs.
type Machine struct {
	Self Owner
	// Started returns when a process began, as in Owner; false where there is
	// none of that number.
	Started func(pid int) (string, bool)
}

// ThisMachine asks the computer itself.
func ThisMachine() Machine {
	o := Owner{PID: os.Getpid()}
	o.Start, _ = started(o.PID)
	o.Space, _ = os.Readlink("/proc/self/ns/pid")
	if b, err := os.ReadFile("/proc/sys/kernel/random/boot_id"); err == nil {
		o.Boot = strings.TrimSpace(string(b))
	}
	o.Host, _ = os.Hostname()
	if u, err := user.Current(); err == nil {
		o.User = u.Username
	}
	return Machine{o, started}
}

// started reads when a process began from the system's table of processes.
// Where there is no such table every process counts as there.
func started(pid int) (string, bool) {
	b, err := os.ReadFile(filepath.Join("/proc", fmt.Sprint(pid), "stat"))
	if err != nil {
		_, none := os.Stat("/proc/self/stat")
		return "", none != nil
	}
	// The name in brackets may hold anything; what follows is the third field,
	// and the time it began the 22nd.
	_, rest, _ := strings.Cut(string(b[strings.LastIndexByte(string(b), ')')+1:]), " ")
	f := strings.Fields(rest)
	if len(f) < 20 {
		return "", true
	}
	return f[19], f[0] != "Z" // ended and not yet cleared away
}

// Life tells whether the program of an owner still runs.
func (m Machine) Life(o Owner) Life {
	switch {
	case o == m.Self:
		return Living
	case o.PID <= 0:
		return Unknown
	case o.Boot != "" && o.Boot == m.Self.Boot: // this machine, whatever it is called now
	case o.Host != m.Self.Host || o.Host == "":
		return Unknown
	case o.Boot != "" && m.Self.Boot != "":
		return Dead // this machine was started anew since
	}
	if o.Space != m.Self.Space {
		return Unknown
	}
	start, there := m.Started(o.PID)
	switch {
	case !there || start != "" && o.Start != "" && start != o.Start:
		return Dead
	case start == "":
		return Unknown
	}
	return Living
}
