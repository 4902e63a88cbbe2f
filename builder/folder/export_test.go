package folder

import (
	"context"
	"os"
)

// Replace is Renew for what takes nothing over from the folder that was there.
func Replace(ctx context.Context, dir string, fill func(root *os.Root) error) error {
	return Renew(ctx, dir, func(root, _ *os.Root) error { return fill(root) })
}
