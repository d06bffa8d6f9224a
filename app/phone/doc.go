// Package phone takes photographs from a telephone over the network of the
// shop. It serves one page, to one browser, for a while: a form that sends
// pictures for a face or an end of a board. Nothing listens unless it is
// started, and it ends by itself.
//
// The page is plain HTTP: who can listen on the network can see the pictures
// and the address. It is meant for a network the maker trusts. What comes in
// is a stranger's all the same: the address holds a random token, the first
// browser to use it is the only one, the names of host and origin are checked,
// and what is sent is bounded in size, count, total and time, and kept only if
// it is a picture by its bytes. The sender's file names are shown, never used.
package phone
