package desk_test

import (
	"bytes"
	"context"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/target"
	"github.com/chromedp/chromedp"

	"underflap/liner/request"
)

// painted writes a PNG: a disc on paper, with light that falls off to the right by
// so much.
func painted(t *testing.T, name string, paper, disc color.NRGBA, falling float64) string {
	t.Helper()
	const side = 400
	img := image.NewNRGBA(image.Rect(0, 0, side, side))
	for y := range side {
		for x := range side {
			c := paper
			if math.Hypot(float64(x)-side/2, float64(y)-side/2) < side/4 {
				c = disc
			}
			light := 1 - falling*float64(x)/side
			img.SetNRGBA(x, y, color.NRGBA{uint8(float64(c.R) * light), uint8(float64(c.G) * light), uint8(float64(c.B) * light), 255})
		}
	}
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// dot is the colour of a picture on the page, at shares of its width and height.
func (b *tab) dot(id string, x, y float64) [3]float64 {
	b.Helper()
	p := eval[[]float64](b, `(e => {
		const c = document.createElement('canvas');
		c.width = e.naturalWidth; c.height = e.naturalHeight;
		const d = c.getContext('2d');
		d.drawImage(e, 0, 0);
		return [...d.getImageData(`+number(x)+` * c.width, `+number(y)+` * c.height, 1, 1).data];
	})(document.getElementById(`+quote(id)+`))`)
	k := p[3] / 255 // over white
	return [3]float64{p[0]*k + 255*(1-k), p[1]*k + 255*(1-k), p[2]*k + 255*(1-k)}
}

// apart is the greatest difference of two colours in one channel.
func apart(a, b [3]float64) float64 {
	return max(math.Abs(a[0]-b[0]), math.Abs(a[1]-b[1]), math.Abs(a[2]-b[2]))
}

// A photo of a stamp in poor light is cleaned: even paper, one ink of the palette.
func TestAStampIsCleaned(t *testing.T) {
	b := visit(t, wide)
	b.pickPattern("stamps")
	path := painted(t, "holly.png", color.NRGBA{225, 220, 210, 255}, color.NRGBA{60, 60, 70, 255}, 0.35)
	b.upload("stamp", path)
	b.until(`!document.getElementById('stamp-shown').hidden && ['stamp-original', 'stamp-cleaned'].every(id => (e => e.complete && e.naturalWidth > 50)(document.getElementById(id)))`)
	b.shows("--stamp holly.png")
	b.press(`document.getElementById('stamp-shown')`)
	b.shot("stamp-wide")
	if status := b.text("stamp-status"); !strings.Contains(status, "holly.png") || !strings.Contains(status, "400") {
		t.Errorf("said of the stamp is %q", status)
	}
	if left, right := b.dot("stamp-original", 0.05, 0.5), b.dot("stamp-original", 0.95, 0.5); apart(left, right) < 40 {
		t.Errorf("the original's paper is %v and %v: not as it was given", left, right)
	}
	if left, right := b.dot("stamp-cleaned", 0.01, 0.01), b.dot("stamp-cleaned", 0.99, 0.99); apart(left, right) > 2 {
		t.Errorf("the cleaned paper is %v and %v", left, right)
	}
	inks := strings.Split(eval[string](b, `document.querySelector('input[name=palette]:checked').dataset.inks`), ",")
	if got, want := b.dot("stamp-cleaned", 0.5, 0.5), hexOf(t, inks[0]); apart(got, want) > 2 {
		t.Errorf("the cleaned stamp is %v, the first ink is %v", got, want)
	}
	before := b.pictures()
	slider := `document.querySelector('[data-settings=stamps] [data-set=size]')`
	b.write(eval[string](b, slider+`.id`), "40")
	b.shows("--set size=40")
	if b.pictures().Look == before.Look {
		t.Error("a larger stamp changed nothing")
	}
	name, made := b.download("pdf")
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if want := b.runs(b.text("command"), "liners.pdf", map[string][]byte{"holly.png": data}); !bytes.Equal(made, want) {
		t.Errorf("%s is not what %s makes", name, b.text("command"))
	}
}

// A file that is no picture is refused in plain words beside its field.
func TestAFileThatIsNoPicture(t *testing.T) {
	b := visit(t, wide)
	b.expect("status of 4[0-9][0-9]")
	b.pickPattern("stamps")
	path := filepath.Join(t.TempDir(), "shopping.png")
	if err := os.WriteFile(path, []byte("plums, barley, string\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	b.upload("stamp", path)
	b.until(`/PNG|picture/i.test(document.getElementById('stamp-status').textContent) && !/Reading/.test(document.getElementById('stamp-status').textContent)`)
	if said := b.text("stamp-status"); strings.Contains(said, "--") {
		t.Errorf("said is %q", said)
	}
	b.upload("stamp", painted(t, "holly.png", color.NRGBA{255, 255, 255, 255}, color.NRGBA{60, 60, 70, 255}, 0))
	b.shows("--stamp holly.png")
}

// A bookmark of yesterday names a stamp that the desk of today has not been given:
// a line beside the field says so, and nothing on the page looks broken.
func TestABookmarkOfAStampThatIsGone(t *testing.T) {
	b := visit(t, wide)
	b.expect("status of 4[0-9][0-9]")
	stamp := "added-" + strings.Repeat("0", 64) + "/holly.png"
	b.do(chromedp.Navigate("about:blank"), chromedp.Navigate(b.address+"#pattern=stamps&stamp="+stamp))
	b.until(`/add the file again/.test(document.getElementById('stamp-problem').textContent) && !/last good/.test(document.getElementById('pictures').innerText)`)
	b.until(`document.getElementById('stamp-original').complete && [...document.images].every(e => !e.complete || e.naturalWidth > 0 || !e.getAttribute('src') || e.getBoundingClientRect().width === 0)`)
	b.shot("stamp-gone")
	b.upload("stamp", painted(t, "holly.png", color.NRGBA{255, 255, 255, 255}, color.NRGBA{60, 60, 70, 255}, 0))
	b.shows("--stamp holly.png")
	b.until(`document.getElementById('stamp-original').naturalWidth > 0 && document.getElementById('stamp-original').getBoundingClientRect().width > 0`)
}

// The colours of a photo become one's own.
func TestColoursOfAPhoto(t *testing.T) {
	b := visit(t, wide)
	paper, disc := color.NRGBA{246, 236, 217, 255}, color.NRGBA{140, 47, 57, 255}
	b.pick("colours", "photo")
	b.upload("photo", painted(t, "card.png", paper, disc, 0))
	b.until(`document.getElementById('ground').value && document.getElementById('ink-1').value && /card\.png/.test(document.getElementById('photo-status').textContent)`)
	b.shows("--ground", "--inks")
	if got := hexOf(t, b.value("ground")); apart(got, [3]float64{246, 236, 217}) > 6 {
		t.Errorf("the ground is %s, of a card of %v", b.value("ground"), paper)
	}
	near := 255.0
	for _, ink := range eval[[]string](b, `[...document.querySelectorAll('[data-ink]')].map(e => e.value).filter(Boolean)`) {
		near = min(near, apart(hexOf(t, ink), [3]float64{140, 47, 57}))
	}
	if near > 6 {
		t.Errorf("no ink is near %v", disc)
	}
	b.pick("colours", "own")
	b.shot("photo-wide")
	b.write("ink-1", "navy")
	b.shows("--inks", "navy")
}

// What is downloaded is what the command shown beside the pictures writes.
func TestDownloads(t *testing.T) {
	b := visit(t, wide)
	b.pick("envelope", "c5")
	b.pickPattern("scallops")
	b.pick("palette", "hop-garden")
	b.choose("paper", "a3")
	b.write("count", "5")
	b.write("side-gap", "3.5")
	b.shows("--envelope c5", "--pattern scallops", "--palette hop-garden", "--paper a3", "--count 5", "--side-gap 3.5")
	command := b.text("command")
	for id, begins := range map[string]string{"pdf": "%PDF-1.", "png": "\x89PNG\r\n", "svg": "<?xml "} {
		name, made := b.download(id)
		if !strings.HasSuffix(name, "."+id) || !strings.Contains(name, "c5") {
			t.Errorf("%s is called %s", id, name)
		}
		if !bytes.HasPrefix(made, []byte(begins)) || !bytes.Equal(made, b.runs(command, "liners."+id, nil)) {
			t.Errorf("%s is not what %s makes: %d bytes that begin with %q", name, command, len(made), made[:min(8, len(made))])
		}
	}
	name, made := b.download("look-png")
	if look := strings.Replace(command, "underflap sheet", "underflap look", 1); !strings.HasSuffix(name, ".png") || !bytes.Equal(made, b.runs(look, "look.png", nil)) {
		t.Errorf("%s is not what %s makes", name, look)
	}
}

// A design is saved, the page starts afresh, and the file brings all back; the
// command makes the same sheet of it.
func TestSavingAndOpening(t *testing.T) {
	b := visit(t, wide)
	b.pick("envelope", "dl")
	b.pickPattern("stamps")
	b.pick("palette", "rowan-jelly")
	b.upload("stamp", painted(t, "acorn.png", color.NRGBA{255, 255, 255, 255}, color.NRGBA{60, 40, 30, 255}, 0.1))
	b.write("count", "4")
	b.write("envelope-colour", "kraft")
	b.shows("--envelope dl", "--stamp acorn.png", "--palette rowan-jelly", "--count 4")
	before, command := b.pictures(), b.text("command")
	_, sheets := b.download("pdf")
	name, saved := b.download("save")
	if !strings.HasSuffix(name, ".toml") {
		t.Errorf("the design is called %s", name)
	}
	job, err := request.ParseJob(saved)
	if err != nil || job.Look.EnvelopeColour != "kraft" || len(job.Carried) != 1 {
		t.Fatalf("%v in\n%.600s", err, saved)
	}
	if made := b.runs("underflap run winter.toml", "winter.pdf", map[string][]byte{"winter.toml": saved}); !bytes.Equal(made, sheets) {
		t.Error("the command makes other sheets of the design")
	}
	path := filepath.Join(t.TempDir(), "winter.toml")
	if err := os.WriteFile(path, saved, 0o600); err != nil {
		t.Fatal(err)
	}
	b.pressID("afresh")
	b.shows("!--count", "!--stamp")
	b.upload("open", path)
	b.shows("--count 4", "--stamp acorn.png")
	if again := b.pictures(); again != before || b.text("command") != command {
		t.Errorf("opened again it is %s, was %s", b.text("command"), command)
	}
	if status := b.text("open-status"); !strings.Contains(status, "winter.toml") {
		t.Errorf("said is %q", status)
	}
	b.expect("status of 4[0-9][0-9]")
	if err := os.WriteFile(path, []byte("pattern = 'dots'\npatern = 'dots'\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	b.upload("open", path)
	b.until(`/line 2/i.test(document.getElementById('open-status').textContent)`)
}

// Print reminds of the scale, and opens the PDF of the sheets in a tab of its own.
func TestPrinting(t *testing.T) {
	b := visit(t, wide)
	b.write("count", "6")
	b.shows("--count 6")
	b.pressID("print")
	b.until(`document.getElementById('print-dialog').open && /Actual size/.test(document.getElementById('print-dialog').textContent) && /100\s%/.test(document.getElementById('print-dialog').textContent)`)
	if said := b.text("print-dialog"); !strings.Contains(said, "6 liners: 3 sheets of A4") {
		t.Errorf("said is %q", said)
	}
	b.shot("print-wide")
	ctx, cancel := context.WithTimeout(b.ctx, patience)
	defer cancel()
	opened := chromedp.WaitNewTarget(ctx, func(i *target.Info) bool { return strings.Contains(i.URL, "/print.pdf") })
	b.pressID("print-pdf")
	select {
	case <-opened:
	case <-ctx.Done():
		t.Fatal("no tab opened")
	}
	kind := eval[[]string](b, `fetch(document.getElementById('print-pdf').href).then(async r => [r.headers.get('Content-Type'), r.headers.get('Content-Disposition') || '', (await r.text()).slice(0, 7)])`)
	if kind[0] != "application/pdf" || strings.HasPrefix(kind[1], "attachment") || kind[2] != "%PDF-1." {
		t.Errorf("what opens is %q", kind)
	}
}
