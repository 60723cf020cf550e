package words

import "strings"

// AsTyped is a name in the spelling that is quickest to type: "155mmsquare" for
// "155 mm square".
func AsTyped(name string) string { return strings.ReplaceAll(strings.ToLower(name), " ", "") }
