package phone

import (
	"io"
	"net/http"
	"time"
)

// drain reads what is refused, up to a bound, and drops it. A browser that is
// answered while it still sends, and then cut off, shows its own page of a broken
// connection: the words of the refusal would not be seen.
func (s *Server) drain(w http.ResponseWriter, r *http.Request) {
	w.Header().Set("Connection", "close")
	// Not supported by recorders of tests.
	_ = http.NewResponseController(w).SetReadDeadline(time.Now().Add(s.lim.Drained))
	_, _ = io.CopyN(io.Discard, r.Body, s.lim.Drain) // it is refused either way
}
