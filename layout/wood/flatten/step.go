package flatten

import "heartside/layout/wood/moisture"

// Step is one step of a working.
type Step = moisture.Step

// Value is a named number of a step.
type Value = moisture.Value

const mm = "mm"
