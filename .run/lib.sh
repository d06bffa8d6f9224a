# shellcheck shell=bash
# Shared by start and test: sees to the system packages and to a Go that is new
# enough. Sourced by bash with $root set to the checkout. Everything is quick
# and silent where nothing is missing.
: "${root:?set root before sourcing}"

# C compiler and headers that the window needs to build, and the software
# OpenGL it can run on where there is no graphics card.
packages_build=(gcc libc6-dev pkg-config ca-certificates
	libgl1-mesa-dev libx11-dev libxcursor-dev libxrandr-dev libxinerama-dev
	libxi-dev libxxf86vm-dev libwayland-dev libxkbcommon-dev)
packages_run=(libgl1-mesa-dri)
# What tests alone use: a browser for the page of the telephone, a reader for
# its QR code. Their tests are skipped where these are missing.
packages_test=(chromium chromium-driver zbar-tools)

# The toolchain to fetch where Go is missing or too old. go.mod says the least
# that will do.
fetch_go=1.26.8

say() { printf 'heartside: %s\n' "$*" >&2; }
die() { say "$*"; exit 1; }

# as_root runs a command as root, through sudo where we are somebody else.
as_root() {
	if [ "$(id -u)" = 0 ]; then
		"$@"
	elif command -v sudo >/dev/null 2>&1; then
		sudo "$@"
	else
		die "this needs root and there is no sudo. As root run: $*"
	fi
}

# missing_packages prints those of its arguments that are not installed.
missing_packages() {
	local p
	for p in "$@"; do
		case "$(dpkg-query -W -f '${Status}' "$p" 2>/dev/null)" in
		*' installed') ;;
		*) printf '%s\n' "$p" ;;
		esac
	done
}

# need_packages installs what is missing of its arguments.
need_packages() {
	local missing
	if ! command -v dpkg-query >/dev/null 2>&1 || ! command -v apt-get >/dev/null 2>&1; then
		say "this system has no apt: going on as if the matching packages were here for: $*"
		return 0
	fi
	missing=$(missing_packages "$@" | tr '\n' ' ')
	[ -n "$missing" ] || return 0
	say "installing: $missing"
	as_root env DEBIAN_FRONTEND=noninteractive apt-get update -q </dev/null >&2 ||
		say 'apt-get update failed; trying with the lists that are here'
	# shellcheck disable=SC2086 # a list of words
	as_root env DEBIAN_FRONTEND=noninteractive apt-get install -q -y --no-install-recommends $missing </dev/null >&2 ||
		die "apt-get could not install: $missing"
}

# version_of prints the version of a go command, such as 1.26.8, without letting
# it switch to another toolchain.
version_of() {
	(cd / && GOTOOLCHAIN=local "$1" version 2>/dev/null) | sed -n 's/^go version go\([0-9][0-9.]*\).*/\1/p'
}

# at_least A B: version A is B or newer. Missing parts count as 0.
at_least() {
	local IFS=. a b i
	# shellcheck disable=SC2206
	a=($1) b=($2)
	for i in 0 1 2; do
		[ "${a[i]:-0}" -gt "${b[i]:-0}" ] && return 0
		[ "${a[i]:-0}" -lt "${b[i]:-0}" ] && return 1
	done
	return 0
}

# go_dir is where a toolchain of our own is kept.
go_dir() { printf '%s\n' "${XDG_CACHE_HOME:-$HOME/.cache}/heartside/go$fetch_go"; }

# use_go DIR puts DIR first on PATH and holds to that toolchain.
use_go() {
	PATH=$1:$PATH
	export PATH GOTOOLCHAIN=local
	unset GOROOT
}

# need_go finds a Go that is new enough, or gets one through the Go module
# mirror with its checksum verified as for any module.
need_go() {
	local want bin version best='' best_version=0
	want=$(sed -n 's/^go \([0-9.]*\)$/\1/p' "$root/go.mod")
	[ -n "$want" ] || die "no go line in $root/go.mod"
	for bin in "$(command -v go || true)" /usr/local/go/bin/go /usr/lib/go/bin/go /usr/lib/go-*/bin/go "$(go_dir)/bin/go"; do
		if [ ! -x "$bin" ]; then continue; fi
		version=$(version_of "$bin")
		[ -n "$version" ] || continue
		if at_least "$version" "$want"; then
			use_go "$(dirname "$bin")"
			return 0
		fi
		if at_least "$version" "$best_version"; then best=$bin best_version=$version; fi
	done
	if [ -z "$best" ]; then
		need_packages golang-go
		best=$(command -v go) || die "there is no go command. Install Go $want or newer."
		best_version=$(version_of "$best")
		if at_least "$best_version" "$want"; then
			use_go "$(dirname "$best")"
			return 0
		fi
	fi
	[ -d "$("$best" env GOMODCACHE)/golang.org/toolchain@v0.0.1-go$fetch_go.linux-$("$best" env GOARCH)" ] ||
		say "Go $best_version is too old, $want is needed: fetching Go $fetch_go as a module (about 70 MB, once)"
	if at_least "$best_version" 1.21; then
		# This Go knows how to fetch and use another one.
		PATH=$(dirname "$best"):$PATH
		export PATH GOTOOLCHAIN="go$fetch_go+auto"
		(cd / && go version >/dev/null) || die "could not fetch Go $fetch_go. Install Go $want or newer."
		return 0
	fi
	fetch_toolchain "$best"
	use_go "$(go_dir)/bin"
}

# fetch_toolchain does with an older go command what a newer one does by
# itself: downloads the toolchain as a module and makes it ready to run. The
# module cache is read-only, so the toolchain gets a folder of its own.
fetch_toolchain() {
	local arch module answer from to half
	arch=$("$1" env GOARCH)
	module="golang.org/toolchain@v0.0.1-go$fetch_go.linux-$arch"
	answer=$(cd / && GOFLAGS='' GOWORK=off GO111MODULE=on "$1" mod download -json "$module") || true
	from=$(printf '%s\n' "$answer" | sed -n 's/^[[:space:]]*"Dir": "\(.*\)",\{0,1\}$/\1/p')
	[ -d "$from" ] || die "could not fetch Go $fetch_go: $answer
Install Go $fetch_go or newer by hand."
	to=$(go_dir)
	half=$to.$$
	rm -rf "$to".*
	mkdir -p "$half"
	cp -R "$from/." "$half/" || die "could not copy Go to $half"
	chmod -R u+w "$half"
	# A module carries no execute bits, and no go.mod files below its top.
	chmod -R a+x "$half/bin" "$half/pkg/tool"
	find "$half" -name _go.mod | while IFS= read -r f; do cp "$f" "${f%_go.mod}go.mod"; done
	[ -n "$(version_of "$half/bin/go")" ] || die "the fetched Go in $half does not run"
	rm -rf "$to"
	mv "$half" "$to"
	say "Go $fetch_go is in $to"
}

# need_all sees to everything a build needs.
need_all() {
	need_packages "${packages_build[@]}" "${packages_run[@]}"
	need_go
	export CGO_ENABLED=1
}
