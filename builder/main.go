// Keelpath compiles decision trees and explainers about prosthetic feet into a
// static site. This package is the command; each folder below it is one room.
package main

import (
	"context"
	"os"
	"os/signal"
	"syscall"

	"keelpath/builder/command"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	os.Exit(int(command.Run(ctx, os.Args[1:], command.Streams{In: os.Stdin, Out: os.Stdout, Err: os.Stderr})))
}
