//go:build noheic

package picture

import (
	"errors"
	"image"
)

const withHEIC = false

func lookHEIC(*source, Limits) (raw, error) { return raw{}, errors.ErrUnsupported }

func decodeHEIC(*source) (image.Image, error) { return nil, errors.ErrUnsupported }
