package clean

import (
	"bytes"
	"image"
	"image/color"
	"image/draw"
	"image/jpeg"
	"math"
	"math/rand/v2"
	"testing"
)

// photo is a made photo of Tarn Lane Press's acorn stamp: how it was taken.
type photo struct {
	width, height int
	paper, ink    [3]float64 // reflectance
	turn          float64    // degrees
	size          float64    // of the stamp, as a share of the picture's height
	falloff       float64    // share of the light that is lost at the darkest corner
	shadow        float64    // share of the light that a soft shadow takes
	patchy        float64    // share of the ink that is missing where the print is palest
	blur          int        // passes of a 1 2 1 blur
	noise         float64    // standard deviation, in levels of 255
	dust          int        // specks
	quality       int        // of the JPEG
}

// acorn tells whether a place holds ink. The art reaches from -1 to 1.
func acorn(x, y float64) bool {
	near := func(cx, cy, r float64) bool { return (x-cx)*(x-cx)+(y-cy)*(y-cy) < r*r }
	switch {
	case !near(0, 0, 0.93): // a frame, and nothing outside
		return near(0, 0, 1)
	case near(-0.6, 0.35, 0.035) || near(0.62, 0.3, 0.05): // two dots
		return true
	case x*x/0.16+(y-0.12)*(y-0.12)/0.3 < 1 && y > 0: // the nut, with two lines left free
		return math.Abs(x-0.12) > 0.018 && math.Abs(x+0.16) > 0.03
	case x*x/0.24+(y+0.05)*(y+0.05)/0.09 < 1 && y <= -0.04: // the cup, cross-hatched
		return math.Mod(x+y+4, 0.09) < 0.05 || math.Mod(x-y+4, 0.09) < 0.04
	case y < -0.3 && y > -0.62: // the stalk
		return math.Abs(x-0.05*math.Sin(9*y)) < 0.03
	}
	return false
}

// take makes the photo, and the ink that is truly there: half a pixel or more.
func (p photo) take(t testing.TB) (*image.NRGBA, []bool) {
	t.Helper()
	w, h := p.width, p.height
	chance := rand.New(rand.NewPCG(7, uint64(w)))
	const fine = 3
	cover := newField(w, h)
	truth := make([]bool, w*h)
	sin, cos := math.Sincos(p.turn * math.Pi / 180)
	half := p.size * float64(h) / 2
	for at := range cover.v {
		n := 0
		for i := range fine * fine {
			x := (float64(at%w) + (float64(i%fine)+0.5)/fine - 0.52*float64(w)) / half
			y := (float64(at/w) + (float64(i/fine)+0.5)/fine - 0.49*float64(h)) / half
			if acorn(x*cos+y*sin, y*cos-x*sin) {
				n++
			}
		}
		cover.v[at] = float32(n) / fine / fine
		truth[at] = 2*n > fine*fine
	}
	for range p.dust {
		cx, cy, r := chance.Float64()*float64(w), chance.Float64()*float64(h), 0.5+1.5*chance.Float64()
		for y := int(cy - r); y <= int(cy+r); y++ {
			for x := int(cx - r); x <= int(cx+r); x++ {
				if x >= 0 && y >= 0 && x < w && y < h && math.Hypot(float64(x)-cx, float64(y)-cy) < r {
					cover.v[y*w+x] = 1 - cover.v[y*w+x]
				}
			}
		}
	}
	for at := range cover.v {
		x, y := float64(at%w)/half, float64(at/w)/half
		cover.v[at] *= float32(1 - p.patchy*(0.5+0.5*math.Sin(2.3*x+1)*math.Cos(1.7*y)))
	}
	for range p.blur {
		cover = smooth(cover)
	}
	img := image.NewNRGBA(image.Rect(0, 0, w, h))
	for at, c := range cover.v {
		x, y := float64(at%w)/float64(w), float64(at/w)/float64(h)
		light := 1 - p.falloff*(0.6*x+0.25*y*y+0.15*x*y)
		light *= 1 - p.shadow/(1+math.Exp((x-0.35+0.2*y)*60)) // about a twentieth of the width soft
		var v [3]uint8
		for k := range v {
			r := p.paper[k]*(1-float64(c)) + p.ink[k]*float64(c)
			v[k] = uint8(math.Round(min(max(255*r*light+p.noise*chance.NormFloat64(), 0), 255)))
		}
		img.SetNRGBA(at%w, at/w, color.NRGBA{v[0], v[1], v[2], 255})
	}
	if p.quality == 0 {
		return img, truth
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, &jpeg.Options{Quality: p.quality}); err != nil {
		t.Fatal(err)
	}
	back, err := jpeg.Decode(&b)
	if err != nil {
		t.Fatal(err)
	}
	draw.Draw(img, img.Rect, back, image.Point{}, draw.Src)
	return img, truth
}

var white, grey, cream = [3]float64{0.97, 0.97, 0.97}, [3]float64{0.8, 0.79, 0.77}, [3]float64{0.93, 0.88, 0.78}
var black, red, green = [3]float64{0.1, 0.1, 0.11}, [3]float64{0.75, 0.12, 0.15}, [3]float64{0.35, 0.55, 0.4}

// photos are what makers bring.
var photos = map[string]photo{
	"scan":            {width: 520, height: 440, paper: white, ink: black, size: 0.8, noise: 1},
	"scan, grey":      {width: 520, height: 440, paper: grey, ink: black, size: 0.8, noise: 3, dust: 60, turn: 8},
	"photo":           {width: 560, height: 490, paper: grey, ink: black, turn: 13, size: 0.7, falloff: 0.45, patchy: 0.2, blur: 1, noise: 5, dust: 150, quality: 85},
	"photo, shadow":   {width: 560, height: 490, paper: white, ink: black, turn: -31, size: 0.7, falloff: 0.3, shadow: 0.35, blur: 1, noise: 4, dust: 80, quality: 80},
	"photo, red ink":  {width: 560, height: 490, paper: cream, ink: red, turn: 90, size: 0.75, falloff: 0.4, patchy: 0.25, blur: 1, noise: 4, dust: 80, quality: 85},
	"photo, pale ink": {width: 560, height: 490, paper: grey, ink: green, turn: 4, size: 0.75, falloff: 0.4, blur: 1, noise: 4, dust: 80, quality: 90},
	"photo, noisy":    {width: 560, height: 490, paper: grey, ink: black, turn: 21, size: 0.8, falloff: 0.6, blur: 1, noise: 14, dust: 80, quality: 90},
	"stamp is small":  {width: 640, height: 480, paper: grey, ink: black, turn: 13, size: 0.45, falloff: 0.45, noise: 5, dust: 120, quality: 90},
	"solid to edges":  {width: 560, height: 490, paper: white, ink: black, turn: 45, size: 1.0, falloff: 0.5, noise: 4, dust: 20, quality: 85},
}
