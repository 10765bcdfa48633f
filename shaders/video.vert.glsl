#version 330 core
// One triangle that covers the picture; `shown` runs 0..1 from the upper left corner of the upright picture.
out vec2 shown;

void main() {
  vec2 corner = vec2(float((gl_VertexID & 1) << 2), float((gl_VertexID & 2) << 1)) * 0.5;
  shown = corner;
  // The target's first row is the picture's first row, as textures are read.
  gl_Position = vec4(corner * 2.0 - 1.0, 0.0, 1.0);
}
