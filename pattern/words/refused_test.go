package words_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"underflap/pattern/words"
)

// The design's contract: an error is one line that says what, where, and what
// would be accepted.
func TestARefusalNamesFieldWordReasonAndWhatIsAccepted(t *testing.T) {
	r := &words.Refused{Field: "flap-depth", Given: "900", Why: "deeper than the pocket", Accepts: "up to 114 mm"}
	if got, want := r.Error(), `flap-depth: "900": deeper than the pocket; accepted: up to 114 mm`; got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	if got, want := r.Flag(), `--flap-depth: "900": deeper than the pocket; accepted: up to 114 mm`; got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	missing := &words.Refused{Field: "flap-depth", Why: "a measured pocket needs it", Accepts: "a length"}
	if got, want := missing.Flag(), `--flap-depth: a measured pocket needs it; accepted: a length`; got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	_, err := words.Length("gum", "12 parsecs")
	for _, part := range []string{"gum", "12 parsecs", `"parsecs"`, "accepted", "114"} {
		if !strings.Contains(err.Error(), part) {
			t.Errorf("%q does not say %q", err, part)
		}
	}
}

func TestARefusalIsOneReadableLineHoweverTheWordWasTyped(t *testing.T) {
	oneLine := func(t interface{ Fatalf(string, ...any) }, given string) {
		_, err := words.Length("side-gap", given)
		var refused *words.Refused
		if !errors.As(err, &refused) {
			return
		}
		flag := refused.Flag()
		if strings.ContainsAny(flag, "\n\r\x00\x1b") {
			t.Fatalf("%q: not one line: %q", given, flag)
		}
		if !strings.HasPrefix(flag, "--side-gap") || !strings.Contains(flag, "; accepted: ") {
			t.Fatalf("%q: %q", given, flag)
		}
	}
	for _, given := range []string{"a\nb", "a\r\nb", "\x1b[31mred", "12\n", "\n", "1 \"\n\""} {
		oneLine(t, given)
	}
	rapid.Check(t, func(t *rapid.T) { oneLine(t, rapid.String().Draw(t, "given")) })

	long := strings.Repeat("wide", 10000)
	for _, given := range []string{long, "12" + long, "12 x" + long} {
		_, err := words.Length("side-gap", given)
		if n := len(err.Error()); n > 300 {
			t.Errorf("a long word (%.6s...) gave an error of %d bytes", given, n)
		}
	}
}

func TestARefusalIsFoundInsideWrappedErrors(t *testing.T) {
	_, _, err := words.Size("pocket", "wide")
	var refused *words.Refused
	if !errors.As(fmt.Errorf("job.toml: %w", err), &refused) || refused.Field != "pocket" {
		t.Errorf("%v", refused)
	}
}

func TestAChoiceIgnoresCaseAndListsWhatThereIs(t *testing.T) {
	accepted := []string{"pointed", "square"}
	for given, want := range map[string]string{"pointed": "pointed", "SQUARE": "square", " Pointed ": "pointed"} {
		if got, err := words.Choose("flap", given, accepted); err != nil || got != want {
			t.Errorf("%q: %q, %v", given, got, err)
		}
	}
	for _, given := range []string{"", "point", "pointed square", "square\n-"} {
		got, err := words.Choose("flap", given, accepted)
		if err == nil || !strings.HasSuffix(err.Error(), "accepted: pointed, square") {
			t.Errorf("%q: %q, %v", given, got, err)
		}
	}
}
