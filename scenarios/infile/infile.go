package infile

import (
	"fmt"
	"io"
	"io/fs"
	"os"
	"syscall"
)

// Standard is the name that stands for standard input.
const Standard = "-"

// RefusedError says why a name cannot be read as input, and what to write.
type RefusedError struct{ Name, Reason string }

func (e *RefusedError) Error() string { return e.Name + ": " + e.Reason }

// Read returns the content of a regular file, or of standard input if the name
// is [Standard]. Of what is larger than most bytes it returns the first most + 1,
// which tells the caller that there is more. The error is a [*RefusedError] for
// what is not a regular file (a folder, a named pipe, a device, a socket) and
// one of package os for what cannot be opened or read.
func Read(name string, most int64) ([]byte, error) {
	if name == Standard {
		return limited(os.Stdin, most)
	}
	// Looked at before it is opened, since to open a device can already do
	// something, and again afterwards, since another may stand there by then.
	info, err := os.Stat(name)
	if err != nil {
		return nil, err
	}
	if err := regular(name, info); err != nil {
		return nil, err
	}
	// Without O_NONBLOCK, a named pipe that nobody writes to would wait for ever.
	f, err := os.OpenFile(name, os.O_RDONLY|syscall.O_NONBLOCK, 0)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	if info, err = f.Stat(); err != nil {
		return nil, err
	}
	if err := regular(name, info); err != nil {
		return nil, err
	}
	return limited(f, most)
}

func limited(r io.Reader, most int64) ([]byte, error) {
	return io.ReadAll(io.LimitReader(r, most+1))
}

func regular(name string, info fs.FileInfo) error {
	what := ""
	switch mode := info.Mode(); {
	case mode.IsRegular():
		return nil
	case mode.IsDir():
		return &RefusedError{name, "this is a folder, not a facility file"}
	case mode&fs.ModeNamedPipe != 0:
		what = "a pipe"
	case mode&fs.ModeSocket != 0:
		what = "a socket"
	case mode&fs.ModeDevice != 0:
		what = "a device"
	default:
		what = "not a regular file"
	}
	return &RefusedError{name, fmt.Sprintf("this is %s; name a regular file, or write %s to read standard input", what, Standard)}
}
