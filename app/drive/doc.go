// Command drive works the program's window with gestures drawn at random, as
// long as it is told, and looks for what must not happen: an end of the program,
// a panic, a state that undo does not bring back, goroutines and memory that
// grow. It needs an X display with a window manager, and xdotool.
//
// The gestures come in rounds. After each round everything is undone; the
// project must be the one that the round began with, to the last digit. The
// same seed draws the same gestures; how far the program has got when each
// arrives is not the same twice.
package main
