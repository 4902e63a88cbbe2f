package folder

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"sync/atomic"
	"syscall"
	"testing"

	"golang.org/x/sys/unix"
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
	if err := exchange(t.TempDir(), t.TempDir()); err != nil {
		t.Fatal("this test needs a file system that exchanges two names, such as ext4, xfs, btrfs or tmpfs; set TMPDIR to one: ", err)
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

// Only what carries our names, and is empty or marked, is tidied away.
func TestTidyLeavesOthersAlone(t *testing.T) {
	top := t.TempDir()
	write(t, top+"/.out.keelpath-11/"+Marker, markerText)
	write(t, top+"/.out.keelpath-11/half/page.html", "half a page")
	write(t, top+"/.out.keelpath-12/thesis.txt", "not marked")
	write(t, top+"/.out.keelpath-notes/"+Marker, "not a name of ours")
	write(t, top+"/.out.keelpath-13", "a file")
	write(t, top+"/.other.keelpath-14/"+Marker, "beside another folder")
	os.Mkdir(top+"/.out.keelpath-15", 0o700)
	build(t, top+"/out", "first")
	wantEntries(t, top, ".other.keelpath-14", ".out.keelpath-12", ".out.keelpath-13", ".out.keelpath-notes", "out")
}

// asNobody runs f with the rights of a user who is nobody here. A test that runs as
// root may do everything, and would see no folder resist: so f runs on a thread
// that has given its rights up and ends with it.
func asNobody(t *testing.T, f func()) {
	t.Helper()
	if os.Geteuid() != 0 {
		f()
		return
	}
	const nobody = 65534
	done := make(chan syscall.Errno)
	go func() {
		defer close(done)
		runtime.LockOSThread() // and never unlocked: the thread ends here
		for _, call := range []uintptr{syscall.SYS_SETRESGID, syscall.SYS_SETRESUID} {
			if _, _, err := syscall.RawSyscall(call, nobody, nobody, nobody); err != 0 {
				done <- err
				return
			}
		}
		f()
	}()
	if err, failed := <-done; failed {
		t.Fatal("cannot give up the rights of root:", err)
	}
}

// openTop gives a folder that everybody may write to, and the way to it.
func openTop(t *testing.T) string {
	t.Helper()
	top, err := os.MkdirTemp("", "keelpath-folder-")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		_ = filepath.WalkDir(top, func(path string, d fs.DirEntry, err error) error {
			if err == nil && d.IsDir() {
				_ = os.Chmod(path, 0o777)
			}
			return nil
		})
		os.RemoveAll(top)
	})
	if err := os.Chmod(top, 0o777); err != nil {
		t.Fatal(err)
	}
	return top
}

// An old folder that resists its removal is told of, with the place where it lies,
// and the new one stands. Once the folder no longer resists, the next build takes
// it away.
func TestOldFolderThatResists(t *testing.T) {
	top := openTop(t)
	dir := filepath.Join(top, "out")
	var err error
	asNobody(t, func() {
		err = Replace(context.Background(), dir, func(root *os.Root) error { return writePages(root, "old") })
	})
	if err != nil {
		t.Fatal(err)
	}
	if err := os.Chmod(filepath.Join(dir, "learn/ramps"), 0o555); err != nil { // nothing in it can be removed
		t.Fatal(err)
	}
	asNobody(t, func() {
		err = Replace(context.Background(), dir, func(root *os.Root) error { return writePages(root, "new") })
	})
	var left *Left
	if !errors.As(err, &left) || !errors.Is(err, fs.ErrPermission) {
		t.Fatalf("got %v, want what was left", err)
	}
	if filepath.Dir(left.Path) != top || !strings.Contains(err.Error(), "lies at "+left.Path+": permission denied") {
		t.Errorf("it says %q", err)
	}
	wantFiles(t, dir, pages("new"))
	wantEntries(t, top, filepath.Base(left.Path), "out")
	if _, err := os.Stat(filepath.Join(left.Path, "learn/ramps/index.html")); err != nil {
		t.Errorf("the old folder does not lie there: %v", err)
	}

	asNobody(t, func() {
		err = Replace(context.Background(), dir, func(root *os.Root) error { return writePages(root, "third") })
	})
	if err != nil {
		t.Errorf("what an earlier build left stops a later one: %v", err)
	}
	wantFiles(t, dir, pages("third"))
	if err := os.Chmod(filepath.Join(left.Path, "learn/ramps"), 0o755); err != nil {
		t.Fatal(err)
	}
	asNobody(t, func() {
		err = Replace(context.Background(), dir, func(root *os.Root) error { return writePages(root, "fourth") })
	})
	if err != nil {
		t.Error(err)
	}
	wantEntries(t, top, "out")
}

// The same where a build fails: what it could not clear away is told of.
func TestUnfinishedFolderThatResists(t *testing.T) {
	top := openTop(t)
	broken := errors.New("page 3 is broken")
	var err error
	asNobody(t, func() {
		err = Replace(context.Background(), filepath.Join(top, "out"), func(root *os.Root) error {
			if err := writePages(root, "half"); err != nil {
				return err
			}
			return errors.Join(broken, root.Chmod("learn/ramps", 0o555))
		})
	})
	staged, _ := filepath.Glob(top + "/.out.keelpath-*")
	if !errors.Is(err, broken) || len(staged) != 1 || !strings.Contains(err.Error(), "lies at "+staged[0]) {
		t.Errorf("it says %v, and %q is left", err, staged)
	}
}

// Killed between the two steps of a swap and then built anew, a site leaves its old
// folder aside. The next build takes it away, but not while a live run holds it.
func TestOldFolderAside(t *testing.T) {
	top := t.TempDir()
	dir := filepath.Join(top, "out")
	build(t, dir, "good")
	to, err := locate(dir)
	if err != nil {
		t.Fatal(err)
	}
	write(t, filepath.Join(to.aside, Marker), markerText)
	write(t, filepath.Join(to.aside, "index.html"), "older")
	held, err := hold(to.aside)
	if err != nil {
		t.Fatal(err)
	}
	build(t, dir, "beside it")
	wantFiles(t, to.aside, map[string]string{Marker: markerText, "index.html": "older"})
	held.Close()
	build(t, dir, "after it")
	wantEntries(t, top, "out")
	wantFiles(t, dir, pages("after it"))
}

// A lock on a folder that was replaced in between counts for nothing: another
// folder has the name now.
func TestLockOnAReplacedFolder(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "staged")
	if err := os.Mkdir(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	f, err := os.Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := os.Remove(dir); err != nil {
		t.Fatal(err)
	}
	if err := lockOpen(f, dir); !errors.Is(err, errTaken) {
		t.Errorf("a folder that is gone was locked: %v", err)
	}
	if err := os.Mkdir(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	if err := lockOpen(f, dir); !errors.Is(err, errTaken) {
		t.Errorf("a folder in whose place another one is was locked: %v", err)
	}
}

// A mounted folder is refused before anything is built. /proc is one on every Linux.
func TestMountedFolder(t *testing.T) {
	if !isMount("/proc") || isMount(t.TempDir()) {
		t.Fatalf("/proc is mounted: %v, and a new folder: %v", isMount("/proc"), isMount(t.TempDir()))
	}
	wantRefusal(t, "/proc", `"/proc" is a mounted folder`, `name a folder inside it, such as "/proc/out"`)
}

// Where locks are not to be had, a site is built all the same, and no folder
// counts as left over: nobody can tell whether its maker is alive.
func TestFileSystemWithoutLocks(t *testing.T) {
	flock = func(int, int) error { return syscall.ENOLCK }
	t.Cleanup(func() { flock = unix.Flock })
	top := t.TempDir()
	write(t, top+"/.out.keelpath-11/"+Marker, markerText)
	build(t, filepath.Join(top, "out"), "good")
	wantFiles(t, filepath.Join(top, "out"), pages("good"))
	wantEntries(t, top, ".out.keelpath-11", "out")
}

// What holds a folder where there are no locks can be let go of like any other.
func TestHeldWithoutLocks(t *testing.T) {
	flock = func(int, int) error { return syscall.ENOLCK }
	t.Cleanup(func() { flock = unix.Flock })
	held, err := hold(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	if err := held.Close(); err != nil {
		t.Error(err)
	}
}

// Ten staging folders that others take away are enough, and the build says why it stops.
func TestStageThatOthersTake(t *testing.T) {
	tries := 0
	flock = func(int, int) error { tries++; return unix.EWOULDBLOCK }
	t.Cleanup(func() { flock = unix.Flock })
	to, err := locate(filepath.Join(t.TempDir(), "out"))
	if err != nil {
		t.Fatal(err)
	}
	if s, err := to.stage(); s != nil || err == nil || !strings.HasPrefix(err.Error(), "cannot keep a folder beside ") || tries != 10 {
		t.Errorf("staged %v, %v after %d tries", s, err, tries)
	}
}

// A path that is not there is no mount.
func TestNoMount(t *testing.T) {
	if isMount(filepath.Join(t.TempDir(), "nowhere")) {
		t.Error("something is mounted nowhere")
	}
}

// A folder that another process holds is not held twice.
func TestHeldOnce(t *testing.T) {
	dir := t.TempDir()
	first, err := hold(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer first.Close()
	if _, err := hold(dir); !errors.Is(err, errTaken) {
		t.Errorf("a folder that is held was held again: %v", err)
	}
}

// A staging folder that its own maker may not open is removed again, and the build
// says why it stops.
func TestStageThatCannotBeHeld(t *testing.T) {
	top := openTop(t)
	to, err := locate(filepath.Join(top, "out"))
	if err != nil {
		t.Fatal(err)
	}
	old := syscall.Umask(0o777)
	asNobody(t, func() { _, err = to.stage() })
	syscall.Umask(old)
	if !errors.Is(err, fs.ErrPermission) {
		t.Errorf("got %v, want that it may not be opened", err)
	}
	wantEntries(t, top)
}

// A folder whose entries cannot be listed keeps its marker, so that its removal
// can be taken up again.
func TestDiscardOfAFolderThatCannotBeListed(t *testing.T) {
	top := openTop(t)
	var err error
	asNobody(t, func() {
		err = errors.Join(os.Mkdir(top+"/old", 0o755), os.WriteFile(top+"/old/"+Marker, nil, 0o644), os.WriteFile(top+"/old/page.html", nil, 0o644), os.Chmod(top+"/old", 0o300))
		if err == nil {
			err = discard(top + "/old")
		}
	})
	if !errors.Is(err, fs.ErrPermission) || !marked(top+"/old") {
		t.Errorf("got %v, want that it may not be listed; marked: %v", err, marked(top+"/old"))
	}
}
