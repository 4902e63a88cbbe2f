package command

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"time"

	"github.com/spf13/cobra"
	"golang.org/x/sync/errgroup"

	"keelpath/builder/finding"
	"keelpath/builder/serve"
)

func showCommand(s Streams) *cobra.Command {
	var in input
	var port int
	c := &cobra.Command{
		Use:   "show",
		Short: "Show the site on this machine while you write",
		Long: `Builds the site and serves it on 127.0.0.1, to this machine only. When a file of
a layer changes, the site is built again and open pages reload. While the
content has errors, or the folder of a layer is away, the last good site stays.`,
		Example: "  keelpath show --layer our-clinic",
		Args:    cobra.NoArgs,
		RunE: func(c *cobra.Command, _ []string) error {
			return show(c.Context(), s, &in, port)
		},
	}
	in.flags(c)
	c.Flags().IntVar(&port, "port", 0, "the `port`; any free one where it is left out")
	return c
}

func show(ctx context.Context, s Streams, in *input, port int) error {
	if port < 0 || port > 65535 {
		return wrongCall{fmt.Errorf("--port is %d, and a port is a number from 0 to 65535", port)}
	}
	temp, err := os.MkdirTemp("", "keelpath-show-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(temp)
	site := filepath.Join(temp, "site")
	if err := rebuild(ctx, s, in, site); err != nil {
		return err
	}
	ln, err := serve.Listen(port)
	if err != nil {
		return err
	}
	pages := serve.New(site)
	fmt.Fprintf(s.Out, "showing the site at http://%s/ (stop with ctrl-c)\n", ln.Addr())
	if len(in.layers) == 0 {
		return pages.Serve(ctx, ln)
	}
	group, ctx := errgroup.WithContext(ctx)
	group.Go(func() error { return pages.Serve(ctx, ln) })
	group.Go(func() error {
		return serve.Watch(ctx, in.layers, func() {
			err := rebuild(ctx, s, in, site)
			switch {
			case err == nil:
				pages.Changed()
				fmt.Fprintf(s.Out, "built again at %s\n", time.Now().Format(time.TimeOnly))
			case !errors.Is(err, errFindings) && ctx.Err() == nil:
				fmt.Fprintf(s.Err, "%v\nthe site was not built; it is tried again when the folder changes\n", err)
			}
		})
	})
	return group.Wait()
}

// rebuild builds the site, or prints why it cannot.
func rebuild(ctx context.Context, s Streams, in *input, site string) error {
	list, was := &finding.List{}, siteIn(site)
	l, err := in.again(ctx, list, was.known())
	if err == nil {
		err = tell(s.Err, l, list)
	}
	if err == nil && list.Errors() > 0 {
		fmt.Fprintln(s.Err, "the site was not built")
		return errFindings
	}
	if err == nil {
		_, err = build(ctx, s, l, was, inputs{}, site, quietBar())
	}
	return err
}
