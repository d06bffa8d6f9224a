package phone

import (
	"fmt"
	"net"
	"net/netip"
	"slices"
	"strings"

	"heartside/model/say"
)

// Address is a place in the network this machine can be reached at.
type Address struct {
	IP   netip.Addr
	Name string // of the network connection, as the system calls it
}

func (a Address) String() string { return fmt.Sprintf("%v (%s)", a.IP, a.Name) }

// Addresses returns the private IPv4 addresses of the network connections that
// are up, those of real networks before those that other programs made.
func Addresses() ([]Address, error) {
	faces, err := net.Interfaces()
	if err != nil {
		return nil, say.Errorf("the networks of this machine cannot be listed: %w", err)
	}
	var out []Address
	for _, f := range faces {
		if f.Flags&net.FlagUp == 0 || f.Flags&net.FlagLoopback != 0 {
			continue
		}
		list, err := f.Addrs()
		if err != nil {
			continue // the connection went away meanwhile
		}
		for _, a := range list {
			if p, err := netip.ParsePrefix(a.String()); err == nil && shopAddress(p.Addr()) {
				out = append(out, Address{p.Addr(), f.Name})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b Address) int { return made(a.Name) - made(b.Name) })
	return out, nil
}

// shopAddress reports whether an address is one of a private network
// (RFC 1918): such an address is not reached from the Internet.
func shopAddress(ip netip.Addr) bool { return ip.Is4() && ip.IsPrivate() }

// made is 1 for connections that programs make for themselves; common practice
// of names, no source.
func made(name string) int {
	for _, p := range []string{"docker", "br-", "veth", "virbr", "vmnet", "vboxnet", "tun", "tap", "wg"} {
		if strings.HasPrefix(name, p) {
			return 1
		}
	}
	return 0
}
