//go:build !linux

package command_test

// limited is for Linux only; nothing calls it here.
func limited() {}
