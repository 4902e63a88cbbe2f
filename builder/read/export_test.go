package read

// Kept is how many bytes of files are kept.
func Kept() int { return decoded.size }
