// The sheet "order".
