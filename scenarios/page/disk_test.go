package page_test

import (
	"encoding/json"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"loamcast/scenarios/page"
)

// saved is what is said of a file that was to be saved.
type saved struct {
	Saved, Hash, Text string
	Changed, Gone     bool
	Problems          []struct{ Path, Words string }
}

// save saves a text.
func (c *client) save(body map[string]any) (status int, said saved) {
	c.t.Helper()
	status, text := c.post("save", body)
	if status == http.StatusOK {
		if err := json.Unmarshal([]byte(text), &said); err != nil {
			c.t.Fatal(err)
		}
	}
	return status, said
}

// hash is that of the file as the page opens it.
func (c *client) hash() string {
	c.t.Helper()
	_, text := c.post("open", map[string]any{})
	var opened struct{ Hash string }
	if err := json.Unmarshal([]byte(text), &opened); err != nil {
		c.t.Fatal(err)
	}
	return opened.Hash
}

// Saving writes the bytes of changed values alone, keeps the rights of the file and a link
// to it, and leaves nothing else in the folder. What has changed on the disk, or is gone,
// is left until it is said to be replaced; what the reader refuses is not written.
func TestSave(t *testing.T) {
	config := here(t)
	target := config.Path
	config.Path = filepath.Join(config.Folder, "link.yaml")
	if err := os.Symlink(target, config.Path); err != nil {
		t.Fatal(err)
	}
	if err := os.Chmod(target, 0o640); err != nil {
		t.Fatal(err)
	}
	c := at(t, config)
	before := c.hash()
	turned := []map[string]string{{"path": "vessels.residence", "value": "19 day"}}
	want := strings.Replace(small(), "residence: 20 day", "residence: 19 day", 1)
	status, said := c.save(map[string]any{"text": small(), "dials": turned, "hash": before})
	if status != http.StatusOK || said.Saved == "" || onDisk(t, target) != want || said.Text != want {
		t.Fatalf("status %d: %+v; on the disk is\n%s", status, said, onDisk(t, target))
	}
	if info, err := os.Lstat(config.Path); err != nil || info.Mode()&os.ModeSymlink == 0 {
		t.Errorf("the link is gone: %v", err)
	}
	if info, err := os.Stat(target); err != nil || info.Mode().Perm() != 0o640 {
		t.Errorf("the file has other rights: %v, %v", info.Mode(), err)
	}

	// The page still has the hash from before its own save: it is told.
	if _, said = c.save(map[string]any{"text": small(), "hash": before}); !said.Changed || said.Text != want || onDisk(t, target) != want {
		t.Errorf("what has changed is %+v", said)
	}
	if _, again := c.save(map[string]any{"text": small(), "hash": said.Hash}); again.Saved == "" || onDisk(t, target) != small() {
		t.Errorf("with what is there named, it is not written: %+v", again)
	}
	if _, said = c.save(map[string]any{"text": strings.Replace(small(), "installed: 3", "installed: -3", 1), "hash": c.hash()}); len(said.Problems) == 0 || onDisk(t, target) != small() {
		t.Errorf("what the reader refuses is written: %+v", said)
	}
	if err := os.Remove(target); err != nil {
		t.Fatal(err)
	}
	if _, said = c.save(map[string]any{"text": small(), "hash": before}); !said.Changed || !said.Gone {
		t.Errorf("that the file is gone is told by %+v", said)
	}
	entries, err := os.ReadDir(config.Folder)
	if err != nil || len(entries) != 1 {
		t.Errorf("in the folder are %v (%v)", entries, err)
	}
}

// Another file is saved in the folder alone, under a plain name, where none is of it.
func TestSaveAs(t *testing.T) {
	config := here(t)
	c := at(t, config)
	for _, name := range []string{"../up.yaml", "/tmp/x.yaml", `..\up.yaml`, "a/b.yaml", ".hidden.yaml", "plant", "plant.yaml.exe", "a\x00.yaml", "..yaml", "-.yaml", "a\n.yaml", "CON:.yaml"} {
		if status, _ := c.save(map[string]any{"text": small(), "name": name}); status != http.StatusBadRequest {
			t.Errorf("%q: status %d", name, status)
		}
	}
	if status, _ := c.save(map[string]any{"text": small(), "name": "plant.yaml"}); status != http.StatusConflict {
		t.Errorf("a file that is there is not kept: status %d", status)
	}
	if status, said := c.save(map[string]any{"text": small(), "name": "plant b.yaml", "dials": []map[string]string{{"path": "vessels.installed", "value": "4"}}}); status != http.StatusOK || said.Saved != "plant b.yaml" {
		t.Errorf("status %d, %+v", status, said)
	}
	if got := onDisk(t, filepath.Join(config.Folder, "plant b.yaml")); got != strings.Replace(small(), "installed: 3", "installed: 4", 1) {
		t.Errorf("saved is\n%s", got)
	}
	if entries, err := os.ReadDir(config.Folder); err != nil || len(entries) != 2 {
		t.Errorf("in the folder are %v (%v)", entries, err)
	}
}

// An example that is built in cannot be saved in its place, but under a name.
func TestBuiltIn(t *testing.T) {
	folder := t.TempDir()
	c := at(t, page.Config{Label: "built-in example dunmarrow", Data: dunmarrow, Folder: folder, Invented: true})
	if status, _ := c.save(map[string]any{"text": string(dunmarrow), "hash": c.hash()}); status != http.StatusConflict {
		t.Errorf("status %d", status)
	}
	if status, _ := c.save(map[string]any{"text": string(dunmarrow), "name": "mine.yaml"}); status != http.StatusOK || onDisk(t, filepath.Join(folder, "mine.yaml")) != string(dunmarrow) {
		t.Errorf("status %d", status)
	}
	if _, text := c.post("open", map[string]any{}); !strings.Contains(text, "INVENTED DATA") || !strings.Contains(text, `"saves":false`) {
		t.Errorf("it opens as %.200s", text)
	}
}
