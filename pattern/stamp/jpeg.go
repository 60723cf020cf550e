package stamp

// bare is a JPEG file without its application segments: where and when a photo
// was taken is nobody's business on a liner, and a note on which way is up
// would be followed by some viewers and not by others. The JFIF and Adobe
// segments (APP0, APP14) stay, since they say how to read the colours (ITU-T
// T.81, B.1.1.3 and B.2.4.6). A file that does not part as it should gives nil.
func bare(data []byte) []byte {
	const (
		sos  = 0xda
		app0 = 0xe0
	)
	out := append([]byte(nil), data[:2]...)
	for at := 2; at+4 <= len(data); {
		if data[at] != 0xff {
			return nil
		}
		marker := data[at+1]
		if marker == 0xff { // fill
			at++
			continue
		}
		if marker == sos {
			return append(out, data[at:]...)
		}
		end := at + 2 + int(data[at+2])<<8 + int(data[at+3])
		if end > len(data) {
			return nil
		}
		if marker < app0 || marker > app0+15 || marker == app0 || marker == app0+14 {
			out = append(out, data[at:end]...)
		}
		at = end
	}
	return nil
}
