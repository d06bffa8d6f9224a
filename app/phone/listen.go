package phone

import (
	"net"
	"sync"
)

// listener lets no more than so many connections be open; others wait in the
// system's own row until one ends.
type listener struct {
	net.Listener
	slots chan struct{}
	over  chan struct{}
	once  sync.Once
}

func limited(l net.Listener, most int) net.Listener {
	return &listener{Listener: l, slots: make(chan struct{}, most), over: make(chan struct{})}
}

// Accept implements net.Listener.
func (l *listener) Accept() (net.Conn, error) {
	select {
	case l.slots <- struct{}{}:
	case <-l.over:
		return nil, net.ErrClosed
	}
	c, err := l.Listener.Accept()
	if err != nil {
		<-l.slots
		return nil, err
	}
	return &conn{Conn: c, free: func() { <-l.slots }}, nil
}

// Close implements net.Listener; an Accept that waits for room ends too.
func (l *listener) Close() error {
	l.once.Do(func() { close(l.over) })
	return l.Listener.Close()
}

// conn gives its room back once.
type conn struct {
	net.Conn
	once sync.Once
	free func()
}

// CloseWrite lets the server end a connection so that its last words arrive.
func (c *conn) CloseWrite() error {
	if w, ok := c.Conn.(interface{ CloseWrite() error }); ok {
		return w.CloseWrite()
	}
	return nil
}

// Close implements net.Conn.
func (c *conn) Close() error {
	err := c.Conn.Close()
	c.once.Do(c.free)
	return err
}
