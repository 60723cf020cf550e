package desk

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"strconv"
	"sync"

	"golang.org/x/net/netutil"

	"underflap/pattern/words"
)

// UsualPort is where the desk is found when it is free. Ports from 49152 are for
// private use (RFC 6335, 6), and those from 61000 are not handed out by Linux.
const UsualPort = 61114

// Listen opens a port of this machine, to itself alone. An empty word is the
// usual port or, where that is taken, any free one; 0 is any free one. It refuses
// a port that is taken.
func Listen(word string) (net.Listener, error) {
	port := UsualPort
	if word != "" {
		var err error
		if port, err = words.Count("port", word, 0, 65535, "nothing, for the usual one"); err != nil {
			return nil, err
		}
	}
	l, err := listen(port)
	if err != nil && word == "" {
		l, err = listen(0)
	}
	if err != nil {
		return nil, &words.Refused{Field: "port", Given: word, Why: "it cannot be had; something else may be using it", Accepts: "another number, or 0 for any that is free"}
	}
	return l, nil
}

func listen(port int) (net.Listener, error) {
	return net.Listen("tcp4", net.JoinHostPort("127.0.0.1", strconv.Itoa(port)))
}

// Address is where a browser finds the desk that listens.
func Address(l net.Listener) string { return fmt.Sprintf("http://127.0.0.1:%d/", portOf(l)) }

func portOf(l net.Listener) int { return l.Addr().(*net.TCPAddr).Port }

// Serve answers until ctx ends. What is under way then has a moment to end; what
// takes longer is cut off. When it returns, nothing of it runs any more.
func (d *Desk) Serve(ctx context.Context, l net.Listener) error {
	work, stop := context.WithCancel(context.WithoutCancel(ctx))
	defer stop()
	var under sync.WaitGroup
	handler := d.Handler(portOf(l))
	server := &http.Server{
		Handler: http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
			under.Add(1)
			defer under.Done()
			handler.ServeHTTP(w, r)
		}),
		ReadHeaderTimeout: d.limits.Header, ReadTimeout: d.limits.Read, WriteTimeout: d.limits.Write, IdleTimeout: d.limits.Idle,
		MaxHeaderBytes: 64 << 10, // an address carries the words of a whole design
		BaseContext:    func(net.Listener) context.Context { return work },
		ErrorLog:       d.log,
		// OPTIONS * is for the guard as well
		DisableGeneralOptionsHandler: true,
	}
	ended := make(chan error, 1)
	go func() { ended <- server.Serve(netutil.LimitListener(l, d.limits.Connections)) }()
	select {
	case err := <-ended: // the listener failed
		server.Close()
		stop()
		under.Wait()
		return err
	case <-ctx.Done():
	}
	grace, done := context.WithTimeout(work, d.limits.Grace)
	defer done()
	if err := server.Shutdown(grace); err != nil { // something takes its time
		stop()
		server.Close()
	}
	under.Wait()
	if err := <-ended; !errors.Is(err, http.ErrServerClosed) {
		return err
	}
	return nil
}
