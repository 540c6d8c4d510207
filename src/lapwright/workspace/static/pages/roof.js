// The sheet "roof".
