// The sheet "describe".
