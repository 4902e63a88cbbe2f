// Package sitetest makes a whole site for tests to look at. Only tests import it.
package sitetest

import (
	"context"
	"net/url"
	"os"
	"path/filepath"

	"keelpath/builder/finding"
	"keelpath/builder/folder"
	"keelpath/builder/internal/librarytest"
	"keelpath/builder/library"
	"keelpath/builder/publish"
)

// Build writes the site of the built-in content, with layers from their folders
// over it, and gives what it was made of. Content with an error gives an error.
func Build(ctx context.Context, dir string, layers ...string) (*library.Library, error) {
	l, err := librarytest.Read(layers...)
	if err != nil {
		return nil, err
	}
	err = folder.Renew(ctx, dir, func(root, _ *os.Root) error {
		_, err := publish.Build(ctx, l, &finding.List{}, publish.Before{}, staged{root}, nil)
		return err
	})
	return l, err
}

// staged is the folder that a site is built in.
type staged struct{ root *os.Root }

func (s staged) Write(name string, data []byte) error { return folder.WriteFile(s.root, name, data) }
func (s staged) Read(name string) ([]byte, error)     { return s.root.ReadFile(filepath.FromSlash(name)) }

// OnDisk gives the address of a page as a double-click opens it.
func OnDisk(dir, name string) string {
	u := url.URL{Scheme: "file", Path: filepath.ToSlash(filepath.Join(dir, filepath.FromSlash(name)))}
	return u.String()
}
