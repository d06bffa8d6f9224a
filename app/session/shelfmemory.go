package session

import (
	"sync"
	"time"

	"heartside/layout/photo"
)

// memoryKey names a picture in memory: a photograph and what changed its
// colours, "" for nothing.
type memoryKey struct {
	shot *shot
	tint string
}

// memory keeps the pictures used last, as many as fit. Several goroutines may
// use it.
type memory struct {
	most int64
	now  func() time.Time

	mu   sync.Mutex
	used int64
	tick int64
	got  map[memoryKey]*kept
}

type kept struct {
	pic  *photo.Squared
	tick int64     // order in which they were last asked for
	at   time.Time // when that was; zero: made, but never asked for
}

// onScreen is for how long what was asked for is taken to be on screen (an
// engineering choice: every drawing asks for all it shows).
const onScreen = 2 * time.Second

func newMemory(most int64) *memory {
	return &memory{most: most, now: time.Now, got: map[memoryKey]*kept{}}
}

// weight is what a picture takes with its halves, bytes.
func weight(s *photo.Squared) int64 { return int64(len(s.Pix.Pix)) * 4 / 3 }

func (m *memory) get(k memoryKey) *photo.Squared {
	m.mu.Lock()
	defer m.mu.Unlock()
	g := m.got[k]
	if g == nil {
		return nil
	}
	m.tick++
	g.tick, g.at = m.tick, m.now()
	return g.pic
}

// put keeps a picture and lets go of those longest not asked for. One that is
// larger than all that fits is not kept. asked tells that the screen waits for
// it.
func (m *memory) put(k memoryKey, s *photo.Squared, asked bool) {
	if k.shot == nil {
		return // nobody asks for it
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	if was := m.got[k]; was != nil {
		m.used -= weight(was.pic)
		delete(m.got, k)
	}
	if weight(s) > m.most {
		return
	}
	m.tick++
	g := &kept{pic: s, tick: m.tick}
	if asked {
		g.at = m.now()
	}
	m.got[k] = g
	m.used += weight(s)
	for m.used > m.most {
		var old memoryKey
		for q, g := range m.got {
			if o := m.got[old]; o == nil || g.tick < o.tick {
				old = q
			}
		}
		m.used -= weight(m.got[old].pic)
		delete(m.got, old)
	}
}

// drop lets go of all pictures of a photograph.
func (m *memory) drop(sh *shot) {
	m.mu.Lock()
	defer m.mu.Unlock()
	for k, g := range m.got {
		if k.shot == sh {
			m.used -= weight(g.pic)
			delete(m.got, k)
		}
	}
}

// dropUnseen lets go of what was not asked for in a while.
func (m *memory) dropUnseen(while time.Duration) {
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.used == 0 {
		return
	}
	now := m.now()
	for k, g := range m.got {
		if now.Sub(g.at) > while {
			m.used -= weight(g.pic)
			delete(m.got, k)
		}
	}
}

// room reports whether n bytes fit beside all that is on screen.
func (m *memory) room(n int64) bool {
	m.mu.Lock()
	defer m.mu.Unlock()
	now := m.now()
	for _, g := range m.got {
		if now.Sub(g.at) < onScreen {
			n += weight(g.pic)
		}
	}
	return n <= m.most
}
