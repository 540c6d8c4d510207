// The sheet "checks".
