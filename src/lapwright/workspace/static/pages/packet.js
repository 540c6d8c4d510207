// The sheet "packet".
