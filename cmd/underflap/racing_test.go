//go:build race

package main

import "time"

// soon is how long a refusal may take; the race detector slows it down.
const soon = 5 * time.Second
