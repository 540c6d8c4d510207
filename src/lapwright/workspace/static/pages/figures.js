// The sheet "figures".
