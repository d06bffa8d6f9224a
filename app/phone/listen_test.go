package phone

import (
	"errors"
	"net"
	"sync/atomic"
	"testing"
	"time"
)

// ready has a connection for whoever asks.
type ready struct{ net.Listener }

func (ready) Accept() (net.Conn, error) {
	c, other := net.Pipe()
	other.Close()
	return c, nil
}

func (ready) Close() error { return nil }

// Of two places both are taken; the third connection comes when one has ended,
// and one that ends twice makes no second place.
func TestOpenConnections(t *testing.T) {
	l := limited(ready{}, 2)
	first, _ := l.Accept()
	l.Accept()
	var ended atomic.Bool
	third := make(chan bool)
	go func() {
		l.Accept()
		third <- ended.Load()
	}()
	time.Sleep(50 * time.Millisecond) // time to go wrong in
	ended.Store(true)
	first.Close()
	if !<-third {
		t.Error("a third connection is open beside two")
	}
	first.Close()
	over := make(chan error)
	go func() {
		_, err := l.Accept()
		over <- err
	}()
	time.Sleep(50 * time.Millisecond)
	l.Close()
	if err := <-over; !errors.Is(err, net.ErrClosed) {
		t.Errorf("waiting for room when it closes: %v", err)
	}
}
