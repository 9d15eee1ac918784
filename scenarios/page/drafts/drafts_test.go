package drafts

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"

	"loamcast/scenarios/page/dials"
)

func at(hour int) time.Time { return time.Date(2020, 3, 1, hour, 0, 0, 0, time.UTC) }

// A draft of a tab takes the place of that before, is offered to other tabs of the same
// file alone, the last kept first, and is gone when it is forgotten.
func TestDrafts(t *testing.T) {
	ctx, dir := context.Background(), filepath.Join(t.TempDir(), "below", "drafts")
	s := &Store{Dir: dir, Of: "/plants/a.yaml"}
	if list := s.Others("x"); len(list) > 0 {
		t.Errorf("before anything is kept there are %v", list)
	}
	first := &Draft{At: at(8), Hash: "old", Text: "name: first"}
	whole := &Draft{At: at(9), Hash: "h", Text: "name: whole\n", Dials: []dials.Setting{{Path: "a.b", Value: "3 %"}}, Paths: []string{"a.b"}, Cases: []Case{{Name: "more", Dials: []dials.Setting{{Path: "c", Value: "4"}}}}}
	for _, d := range []*Draft{first, whole} {
		if err := s.Keep(ctx, "x", d); err != nil {
			t.Fatal(err)
		}
	}
	if err := s.Keep(ctx, "y", &Draft{At: at(10), Text: "name: later"}); err != nil {
		t.Fatal(err)
	}
	if err := (&Store{Dir: dir, Of: "/plants/b.yaml"}).Keep(ctx, "x", first); err != nil {
		t.Fatal(err)
	}
	list := s.Others("z")
	if len(list) != 2 || list[0].Text != "name: later" || !reflect.DeepEqual(&list[1].Draft, whole) {
		t.Fatalf("offered are %+v", list)
	}
	if own := s.Others("y"); len(own) != 1 || own[0].ID != list[1].ID {
		t.Errorf("a tab is offered its own: %+v", own)
	}
	got, err := s.Read(list[1].ID)
	if err != nil || !reflect.DeepEqual(got, whole) {
		t.Errorf("read is %+v, %v", got, err)
	}
	info, err := os.Stat(s.path(list[1].ID))
	if err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("others may read it: %v, %v", info.Mode(), err)
	}
	if err := s.Forget(list[1].ID); err != nil {
		t.Fatal(err)
	}
	if _, err := s.Read(list[1].ID); !errors.Is(err, ErrNone) {
		t.Errorf("what is forgotten is read: %v", err)
	}
	if err := errors.Join(s.Forget(list[1].ID), s.ForgetOwn("y"), s.ForgetOwn("never")); err != nil {
		t.Errorf("forgetting again fails: %v", err)
	}
	if list := s.Others("z"); len(list) > 0 {
		t.Errorf("all are forgotten, and %+v is offered", list)
	}
}

// An ID leads to drafts of the file alone, and what is no draft is passed over.
func TestNoWayOut(t *testing.T) {
	ctx, dir := context.Background(), t.TempDir()
	s := &Store{Dir: dir, Of: "/plants/a.yaml"}
	other := &Store{Dir: dir, Of: "/plants/b.yaml"}
	if err := other.Keep(ctx, "x", &Draft{Text: "theirs"}); err != nil {
		t.Fatal(err)
	}
	outside := filepath.Join(filepath.Dir(dir), "outside"+ending)
	if err := os.WriteFile(outside, []byte("{}"), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, id := range []string{"", "../outside", s.begins() + "../../outside", s.begins(), other.id("x"), s.begins() + strings.Repeat("A", 20)} {
		if _, err := s.Read(id); !errors.Is(err, ErrNone) {
			t.Errorf("%q is read: %v", id, err)
		}
		if err := s.Forget(id); !errors.Is(err, ErrNone) {
			t.Errorf("%q is forgotten: %v", id, err)
		}
	}
	if _, err := os.Stat(outside); err != nil {
		t.Error(err)
	}
	if err := os.WriteFile(s.path(s.id("x")), []byte("half a dra"), 0o600); err != nil {
		t.Fatal(err)
	}
	if list := s.Others("y"); len(list) > 0 {
		t.Errorf("half a draft is offered: %+v", list)
	}
}

// So many drafts are kept; those kept longest ago go.
func TestMostDrafts(t *testing.T) {
	s := &Store{Dir: t.TempDir(), Of: "/plants/a.yaml"}
	for i := range most + 3 {
		if err := s.Keep(context.Background(), fmt.Sprint(i), &Draft{At: at(0)}); err != nil {
			t.Fatal(err)
		}
		old := at(0).Add(time.Duration(i) * time.Minute)
		if err := os.Chtimes(s.path(s.id(fmt.Sprint(i))), old, old); err != nil {
			t.Fatal(err)
		}
	}
	if n := len(s.Others("none")); n != most {
		t.Errorf("%d are kept", n)
	}
	for _, gone := range []string{"0", "1"} {
		if _, err := s.Read(s.id(gone)); !errors.Is(err, ErrNone) {
			t.Errorf("the draft kept longest ago, %s, is there: %v", gone, err)
		}
	}
}

// The folder is the one named, or else among what programs leave of the user's.
func TestFolder(t *testing.T) {
	t.Setenv(Variable, "/named")
	if dir, err := Folder(); err != nil || dir != "/named" {
		t.Errorf("%s, %v", dir, err)
	}
	t.Setenv(Variable, "")
	t.Setenv("XDG_STATE_HOME", "/state")
	if dir, err := Folder(); err != nil || dir != filepath.Join("/state", "loamcast", "drafts") {
		t.Errorf("%s, %v", dir, err)
	}
	t.Setenv("XDG_STATE_HOME", "")
	t.Setenv("HOME", "/home/somebody")
	if dir, err := Folder(); err != nil || dir != filepath.Join("/home/somebody", ".local", "state", "loamcast", "drafts") {
		t.Errorf("%s, %v", dir, err)
	}
	t.Setenv("HOME", "")
	if dir, err := Folder(); err == nil {
		t.Errorf("without a home it is %s", dir)
	}
}
