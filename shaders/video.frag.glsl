#version 330 core
// From the planes of a decoded picture to what an ordinary screen shows. The numbers come from media/colour.h and
// media/tone_map.h; nothing about colour is decided here.
in vec2 shown;
out vec4 colour;

uniform sampler2D plane0;
uniform sampler2D plane1;
uniform sampler2D plane2;
uniform sampler2D light_of;  // HDR: signal to light (PQ: bent already; HLG: scene light)
uniform sampler2D bent;      // HLG: square root of display light over the nominal peak, to bent light

uniform int layout_kind;     // 0 three planes, 1 luma and a plane of pairs, 2 luma alone, 3 packed R'G'B'
uniform float sample_scale;  // what a texture reads, to 0..1 of the sample's depth
uniform mat2 turn;           // upright place to stored place, about the middle
uniform vec2 step_size;      // one target pixel in stored coordinates
uniform int taps;            // samples a side within a target pixel
uniform vec2 chroma_shift;   // of stored coordinates: where the chroma sample lies
uniform mat3 to_rgb;
uniform vec3 offset;
uniform int transfer;        // 0 ordinary, 1 PQ, 2 HLG
uniform int wide;            // 1: BT.2020 primaries

vec3 stored_sample(vec2 at) {
  if (layout_kind == 3) return texture(plane0, at).rgb * sample_scale;
  vec3 yuv = vec3(texture(plane0, at).r * sample_scale, offset.y, offset.z);
  if (layout_kind == 0) {
    yuv.y = texture(plane1, at + chroma_shift).r * sample_scale;
    yuv.z = texture(plane2, at + chroma_shift).r * sample_scale;
  } else if (layout_kind == 1) {
    yuv.yz = texture(plane1, at + chroma_shift).rg * sample_scale;
  }
  return yuv;
}

/// A table of 4096 entries, read between its first and last entry.
float looked_up(sampler2D table, float share) {
  return texture(table, vec2((clamp(share, 0.0, 1.0) * 4095.0 + 0.5) / 4096.0, 0.5)).r;
}

vec3 tone_mapped(vec3 signal) {
  vec3 light = vec3(looked_up(light_of, signal.r), looked_up(light_of, signal.g), looked_up(light_of, signal.b));
  if (transfer == 2) {
    float y = dot(light, vec3(0.2627, 0.6780, 0.0593));
    float gain = y > 0.0 ? pow(y, 0.2) : 0.0;
    light = vec3(looked_up(bent, sqrt(light.r * gain)), looked_up(bent, sqrt(light.g * gain)),
                 looked_up(bent, sqrt(light.b * gain)));
  }
  if (wide == 1) {
    light = vec3(dot(light, vec3(1.660491, -0.587641, -0.072850)), dot(light, vec3(-0.124550, 1.132900, -0.008349)),
                 dot(light, vec3(-0.018151, -0.100579, 1.118730)));
  }
  return pow(clamp(light, 0.0, 1.0), vec3(1.0 / 2.4));
}

void main() {
  vec2 middle = turn * (shown - 0.5) + 0.5;
  vec3 sum = vec3(0.0);
  for (int j = 0; j < taps; ++j) {
    for (int i = 0; i < taps; ++i) {
      vec2 off = (vec2(float(i), float(j)) + 0.5) / float(taps) - 0.5;
      sum += stored_sample(middle + off * step_size);
    }
  }
  vec3 rgb = sum / float(taps * taps);
  if (layout_kind != 3) rgb = to_rgb * (rgb - offset);
  rgb = clamp(rgb, 0.0, 1.0);
  if (transfer != 0) rgb = tone_mapped(rgb);
  colour = vec4(rgb, 1.0);
}
