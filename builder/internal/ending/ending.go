// Package ending gives contexts that end after they were asked a number of times,
// so that a test can stop a run at each place where it listens. Only tests use it.
package ending

import (
	"context"
	"sync/atomic"
)

// A Context ends when it was asked After times whether it has.
type Context struct {
	context.Context
	After int64
	asked atomic.Int64
}

// After gives a context that ends after n questions.
func After(ctx context.Context, n int) *Context { return &Context{Context: ctx, After: int64(n)} }

// Err counts.
func (c *Context) Err() error {
	if c.asked.Add(1) > c.After {
		return context.Canceled
	}
	return c.Context.Err()
}

// Asked is how often it was asked so far.
func (c *Context) Asked() int { return int(c.asked.Load()) }
