// Package picture reads photographs as telephones and cameras write them:
// JPEG, PNG, WebP, TIFF and HEIC. What it gives is upright, opaque and in
// sRGB.
//
// Files come from strangers. Sizes are read from the file's own tables and
// held against Limits before a decoder allocates anything, decoders that panic
// give an error, and every refusal is an *Error that says what the file is and
// what to do. Nothing is ever written to a photograph. Of what a camera notes
// beside the pixels only the date, the camera and its view are read; where the
// photograph was taken is not.
//
// The tag noheic leaves HEIC out, with the library for it.
package picture
