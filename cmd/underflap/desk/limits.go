package desk

import (
	"runtime"
	"time"
)

// Limits bound what a browser may ask for. Bytes, pixels, times and counts.
type Limits struct {
	Previews, Samples, Downloads int // drawn at once
	Waiting                      int // for their turn, of each kind
	Connections                  int

	PreviewTime, DownloadTime time.Duration // for drawing one

	Header, Read, Write, Idle time.Duration // of a connection
	Grace                     time.Duration // for what is under way when the desk closes

	UploadBytes  int64
	UploadPixels int
	Uploads      int // kept, the last ones used
	UploadsBytes int64
	FormBytes    int64
	Receiving    int64 // bytes of uploads while they arrive and are read, all together
	Sending      int64 // bytes of downloads until they are sent, all together
	DownloadSize int   // bytes of a finished file
}

// UsualLimits suit a person at her own machine. A picture of 25 megapixels, as
// large cameras make it, takes about 100 MB while it is read.
func UsualLimits() Limits {
	return Limits{
		Previews: max(2, runtime.NumCPU()), Samples: 1, Downloads: 1,
		Waiting: 64, Connections: 256,
		PreviewTime: 10 * time.Second, DownloadTime: 60 * time.Second,
		Header: 10 * time.Second, Read: 60 * time.Second, Write: 3 * time.Minute, Idle: 2 * time.Minute,
		Grace:       3 * time.Second,
		UploadBytes: 20 << 20, UploadPixels: 25_000_000, Uploads: 24, UploadsBytes: 120 << 20,
		FormBytes: 64 << 10, Receiving: 160 << 20, Sending: 768 << 20, DownloadSize: 256 << 20,
	}
}
