// The sheet "days".
