package drawing

import "slices"

// tiles lists every tile.
var tiles = slices.Concat(groundTiles, shoeTiles, loadTiles, aidTiles, legTiles, dayTiles, topicTiles, endTiles())
