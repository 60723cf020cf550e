//go:build !race

package main

import "time"

// soon is how long a refusal may take.
const soon = time.Second
