// The sheet "file".
