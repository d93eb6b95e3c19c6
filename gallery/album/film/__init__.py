"""The film room's cabinet: a plan goes in, one MP4 and its companions come out; no Django here.

`plan` says what is shown, `check` what stands in the way, `render` makes the film,
`still` shows one slide of it, `captions` writes what stands beside it, `verify` reads it back.
"""
