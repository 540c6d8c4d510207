// The sheet "compare".
