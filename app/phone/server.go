package phone

import (
	"context"
	"crypto/rand"
	"encoding/base64"
	"io"
	"log"
	"net"
	"net/http"
	"net/netip"
	"os"
	"sync"
	"time"

	"heartside/app/intake"
	"heartside/model/say"
)

// Board is a board of the rack.
type Board struct {
	ID   string
	Have []intake.Part // that take none: they have a photograph, or other work
}

// Picture is one that arrived.
type Picture struct {
	Place intake.Place
	Path  string // in a folder that goes away; ends as the format wants
}

// Options say what a server is for.
type Options struct {
	IP     netip.Addr // to listen on: private, or of this machine alone
	Boards []Board    // in the order of the stack
	// Take puts a picture where it belongs before it returns; its file goes
	// away then. An error is told on the phone. Never called twice at once.
	Take   func(context.Context, Picture) error
	Limits Limits
	Temp   string // for files on their way; "" the system's
}

// State is how far a server has come.
type State struct {
	Claimed bool // a browser has the page
	Arrived int
	Refused int
	Last    string // what happened last, in words
	Left    time.Duration
	Over    bool
	OverWhy string
}

// Server takes pictures until it is closed.
type Server struct {
	opt   Options
	lim   Limits
	host  string // address and port
	token string
	dir   string
	http  *http.Server
	ctx   context.Context
	stop  context.CancelFunc
	done  chan struct{}
	slots chan struct{}

	mu      sync.Mutex
	cookie  string // of the browser that came first
	have    map[intake.Place]bool
	results []result
	board   string // the form offers first, "" the next one
	part    intake.Part
	state   State
	number  int
	spent   int64
	busy    int
	until   time.Time
	timer   *time.Timer
	taking  sync.Mutex
	uploads sync.WaitGroup
}

// Start listens at a free port of an address.
func Start(opt Options) (*Server, error) {
	if !shopAddress(opt.IP) && !opt.IP.IsLoopback() {
		return nil, say.Errorf("%v is no address of a private network: choose one that begins with 10., 172.16. to 172.31. or 192.168", opt.IP)
	}
	if len(opt.Boards) == 0 {
		return nil, say.Error("there are no boards: give the boards their letters first")
	}
	token, err := secret()
	if err != nil {
		return nil, err
	}
	dir, err := newSpool(opt.Temp)
	if err != nil {
		return nil, err
	}
	l, err := net.Listen("tcp4", netip.AddrPortFrom(opt.IP, 0).String())
	if err != nil {
		os.RemoveAll(dir)
		return nil, say.Errorf("nothing can listen at %v: %w; look whether the network is still there, or choose another", opt.IP, err)
	}
	s := &Server{opt: opt, lim: opt.Limits.filled(), host: l.Addr().String(), token: token, dir: dir,
		done: make(chan struct{}), have: map[intake.Place]bool{}}
	s.ctx, s.stop = context.WithCancel(context.Background())
	s.slots = make(chan struct{}, s.lim.Abreast)
	for _, b := range opt.Boards {
		for _, p := range b.Have {
			s.have[intake.Place{Board: b.ID, Part: p}] = true
		}
	}
	s.http = &http.Server{Handler: s, ReadHeaderTimeout: 10 * time.Second, IdleTimeout: 15 * time.Second,
		WriteTimeout: s.lim.Upload + time.Minute, MaxHeaderBytes: 16 << 10, ErrorLog: log.New(io.Discard, "", 0)}
	s.mu.Lock()
	s.until = time.Now().Add(s.lim.Idle)
	s.timer = time.AfterFunc(s.lim.Idle, s.idle) // it may end at once
	s.mu.Unlock()
	go s.http.Serve(limited(l, s.lim.Open))
	return s, nil
}

// secret returns 128 random bits as text.
func secret() (string, error) {
	var b [16]byte
	if _, err := rand.Read(b[:]); err != nil {
		return "", say.Errorf("no random number for the address: %w", err)
	}
	return base64.RawURLEncoding.EncodeToString(b[:]), nil
}

// URL is the address of the page.
func (s *Server) URL() string { return "http://" + s.host + s.path() }

func (s *Server) path() string { return "/" + s.token + "/" }

// Done is closed when the server has ended and its folder is gone.
func (s *Server) Done() <-chan struct{} { return s.done }

// State returns how far it has come.
func (s *Server) State() State {
	s.mu.Lock()
	defer s.mu.Unlock()
	st := s.state
	if !st.Over {
		st.Left = s.lim.Idle
		if s.busy == 0 {
			st.Left = max(0, time.Until(s.until))
		}
	}
	return st
}

// Close ends the server; it does not wait, see Done.
func (s *Server) Close() { s.end(say.T("It was stopped.")) }

func (s *Server) end(why string) {
	s.mu.Lock()
	if s.state.Over {
		s.mu.Unlock()
		return
	}
	s.state.Over, s.state.OverWhy = true, why
	s.timer.Stop()
	s.mu.Unlock()
	s.stop()
	s.http.Close()
	go func() {
		s.uploads.Wait()
		os.RemoveAll(s.dir)
		close(s.done)
	}()
}

// idle ends a server nobody sends to.
func (s *Server) idle() {
	s.mu.Lock()
	wait := time.Until(s.until)
	if s.busy > 0 {
		wait = s.lim.Idle
	}
	if wait > 0 {
		s.timer.Reset(wait)
		s.mu.Unlock()
		return
	}
	s.mu.Unlock()
	s.end(say.F("It closed by itself: nothing was sent for %s.", span(s.lim.Idle)))
}

// begin counts an upload in; false where there is no room, or it is over.
func (s *Server) begin() bool {
	select {
	case s.slots <- struct{}{}:
	default:
		return false
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.state.Over {
		<-s.slots
		return false
	}
	s.busy++
	s.uploads.Add(1)
	return true
}

// ended counts an upload out; what came last leaves the full time again.
func (s *Server) ended() {
	s.mu.Lock()
	s.busy--
	s.until = time.Now().Add(s.lim.Idle)
	if !s.state.Over {
		s.timer.Reset(s.lim.Idle)
	}
	s.mu.Unlock()
	<-s.slots
	s.uploads.Done()
}
