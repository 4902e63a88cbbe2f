package folder

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"sync/atomic"
	"syscall"
	"testing"
)

const childVar = "KEELPATH_FOLDER_CHILD"

// TestMain is also the child of TestKilledHalfWay, which fills half a folder, says
// so, and then waits to be killed.
func TestMain(m *testing.M) {
	dir := os.Getenv(childVar)
	if dir == "" {
		os.Exit(m.Run())
	}
	err := Replace(context.Background(), dir, func(root *os.Root) error {
		if err := WriteFile(root, "learn/half.html", []byte("half a p")); err != nil {
			return err
		}
		os.Stdout.WriteString("half way\n")
		_, err := io.Copy(io.Discard, os.Stdin) // until the parent kills this process, or ends itself
		return err
	})
	os.Stdout.WriteString(fmt.Sprint("ended with ", err, "\n"))
	os.Exit(1)
}

func TestKilledHalfWay(t *testing.T) {
	top := t.TempDir()
	dir := filepath.Join(top, "out")
	build(t, dir, "good")
	child := startChild(t, dir)
	staged, _ := filepath.Glob(top + "/.out.keelpath-*")
	if len(staged) != 1 {
		t.Fatalf("staging folders: %q, want one", staged)
	}

	build(t, dir, "beside the child") // must not take the child's folder away
	wantFiles(t, staged[0], map[string]string{"learn/half.html": "half a p", Marker: markerText})

	if err := child.Process.Signal(syscall.SIGKILL); err != nil {
		t.Fatal(err)
	}
	_ = child.Wait()
	wantFiles(t, dir, pages("beside the child"))
	wantEntries(t, top, filepath.Base(staged[0]), "out")

	build(t, dir, "next")
	wantFiles(t, dir, pages("next"))
	wantEntries(t, top, "out")
}

func startChild(t *testing.T, dir string) *exec.Cmd {
	t.Helper()
	child := exec.CommandContext(t.Context(), os.Args[0])
	child.Env = append(os.Environ(), childVar+"="+dir)
	out, err := child.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if _, err := child.StdinPipe(); err != nil {
		t.Fatal(err)
	}
	if err := child.Start(); err != nil {
		t.Fatal(err)
	}
	line, err := bufio.NewReader(out).ReadString('\n')
	if err != nil || line != "half way\n" {
		t.Fatalf("the child says %q, %v", line, err)
	}
	return child
}

// Readers open the pages by name, over and over, while the folder is replaced.
func TestReadersNeverMiss(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "out")
	build(t, dir, "a")
	if err := exchangeWorks(t); err != nil {
		t.Skip("the file system cannot exchange two names:", err)
	}
	var stop atomic.Bool
	var reads atomic.Int64
	var wg sync.WaitGroup
	for range 4 {
		wg.Go(func() {
			for !stop.Load() {
				reads.Add(1)
				data, err := os.ReadFile(filepath.Join(dir, "index.html"))
				if err != nil || string(data) != pages("a")["index.html"] && string(data) != pages("b")["index.html"] {
					t.Errorf("read %q, %v", data, err)
					return
				}
			}
		})
	}
	for range 30 {
		build(t, dir, "b")
		build(t, dir, "a")
	}
	stop.Store(true)
	wg.Wait()
	if reads.Load() < 60 {
		t.Errorf("only %d reads happened, too few to show anything", reads.Load())
	}
}

func exchangeWorks(t *testing.T) error {
	a, b := t.TempDir(), t.TempDir()
	return exchange(a, b)
}

func TestModes(t *testing.T) {
	for _, mask := range []int{0o000, 0o022, 0o077} {
		dir := filepath.Join(t.TempDir(), "out")
		old := syscall.Umask(mask)
		build(t, dir, "first")
		syscall.Umask(old)
		wantModes(t, dir)
	}
}

func wantModes(t *testing.T, dir string) {
	t.Helper()
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		info, err := d.Info()
		if err != nil {
			return err
		}
		want := fs.FileMode(0o644)
		if d.IsDir() {
			want = fs.ModeDir | 0o755
		}
		if info.Mode() != want {
			t.Errorf("%s has mode %v, want %v", path, info.Mode(), want)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

// One process at a time: flock counts per opening, so two openings here stand for two processes.
func TestHeldByOneProcessAtATime(t *testing.T) {
	dir := t.TempDir()
	first, err := hold(dir)
	if err != nil {
		t.Fatal(err)
	}
	if _, ok := claim(dir); ok {
		t.Error("a held folder was claimed")
	}
	first.Close()
	second, ok := claim(dir)
	if !ok {
		t.Fatal("a folder that nobody holds was not claimed")
	}
	second.Close()
	if _, ok := claim(dir + "/missing"); ok {
		t.Error("a missing folder was claimed")
	}
}
