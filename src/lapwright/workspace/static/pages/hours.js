// The sheet "hours".
