// Package intake takes photographs of boards into a project: which picture
// shows which face of which board, and for each the corners, the squared face,
// and its zones. It knows nothing of the window; the work runs wherever the
// caller puts it, with progress, and stops when its context ends.
package intake
