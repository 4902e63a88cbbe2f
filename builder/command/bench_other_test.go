//go:build !linux

package command_test

const benchVar = "KEELPATH_COMMAND_BENCH"

func bench(string) { panic("only on Linux") }
