#include "desk/shell/inner/shader_view.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "desk/shell/inner/gl.h"
#include "desk/shell/inner/planes.h"
#include "embedded/video_fragment.h"
#include "embedded/video_vertex.h"
#include "media/tone_map.h"

namespace sash::desk::inner {
namespace {

using media::Picture;
using media::PlaneKind;
using media::Size;
using media::Transfer;

constexpr int table_size = 4096;

int layout_of(PlaneKind kind) {
  switch (kind) {
    case PlaneKind::nv12:
      return 1;
    case PlaneKind::grey:
      return 2;
    case PlaneKind::rgba:
      return 3;
    default:
      return 0;
  }
}

/// Upright place to stored place about the middle, column by column: undo the turn, then the mirror.
std::array<float, 4> turn_matrix(int turn, bool mirrored) {
  // Row by row: stored x and stored y from shown x and shown y.
  std::array<float, 4> m = {1, 0, 0, 1};
  if (turn == 90) m = {0, 1, -1, 0};
  if (turn == 180) m = {-1, 0, 0, -1};
  if (turn == 270) m = {0, -1, 1, 0};
  if (mirrored) {
    m[0] = -m[0];
    m[1] = -m[1];
  }
  return {m[0], m[2], m[1], m[3]};
}

void fill_table(const Texture& texture, const std::vector<float>& values) {
  texture.bind_smooth();
  glTexImage2D(GL_TEXTURE_2D, 0, GL_R32F, table_size, 1, 0, GL_RED, GL_FLOAT, values.data());
}

/// The tables of tone_map.h for one transfer and peak, as textures on the units 3 and 4.
class ToneTables {
 public:
  void prepare(Transfer transfer, double peak) {
    if (transfer == transfer_ && peak == peak_) return;
    transfer_ = transfer;
    peak_ = peak;
    std::vector<float> light(table_size);
    std::vector<float> bent(table_size);
    for (int i = 0; i < table_size; ++i) {
      const double x = static_cast<double>(i) / (table_size - 1);
      const auto at = static_cast<std::size_t>(i);
      light[at] = static_cast<float>(
          transfer == Transfer::pq ? media::bend_light(media::pq_to_light(x), peak, media::sdr_white) / media::sdr_white
                                   : media::hlg_to_scene(x));
      bent[at] = static_cast<float>(media::bend_light(x * x * media::usual_peak, media::usual_peak, media::sdr_white) /
                                    media::sdr_white);
    }
    fill_table(light_, light);
    fill_table(bent_, bent);
  }
  void bind() const {
    glActiveTexture(GL_TEXTURE3);
    glBindTexture(GL_TEXTURE_2D, light_.name());
    glActiveTexture(GL_TEXTURE4);
    glBindTexture(GL_TEXTURE_2D, bent_.name());
  }

 private:
  Texture light_;
  Texture bent_;
  Transfer transfer_ = Transfer::other;
  double peak_ = 0;
};

class ShaderView final : public VideoView {
 public:
  explicit ShaderView(Program program) : program_(std::move(program)) { glGenVertexArrays(1, &nothing_); }
  ~ShaderView() override { glDeleteVertexArrays(1, &nothing_); }

  ShownPicture show(const media::PicturePtr& picture, Size room) override {
    if (!picture) return {};
    const Size size = fit(shown_size(*picture), room);
    if (picture == shown_ && size == size_) return {target_.texture(), size_};
    if (picture != shown_) planes_.upload(*picture);
    draw(*picture, size);
    shown_ = picture;
    size_ = size;
    return {target_.texture(), size_};
  }

 private:
  void draw(const Picture& p, Size size) {
    const bool hdr = p.colour.transfer == Transfer::pq || p.colour.transfer == Transfer::hlg;
    if (hdr) tables_.prepare(p.colour.transfer, p.mastering.brightest.value_or(media::usual_peak));
    const Target::Use use = target_.use(size.width, size.height);
    program_.use();
    set_uniforms(p, size);
    planes_.bind();
    tables_.bind();
    glBindVertexArray(nothing_);
    glDrawArrays(GL_TRIANGLES, 0, 3);
    glBindVertexArray(0);
    glActiveTexture(GL_TEXTURE0);
    glUseProgram(0);
  }

  void set_uniforms(const Picture& p, Size size) const {
    for (const auto& [name, unit] :
         {std::pair{"plane0", 0}, {"plane1", 1}, {"plane2", 2}, {"light_of", 3}, {"bent", 4}}) {
      glUniform1i(program_.place(name), unit);
    }
    glUniform1i(program_.place("layout_kind"), layout_of(p.kind));
    glUniform1f(program_.place("sample_scale"), sample_scale(p.bits));
    const auto turn = turn_matrix(p.turn, p.mirrored);
    glUniformMatrix2fv(program_.place("turn"), 1, GL_FALSE, turn.data());
    // Sizes along the stored axes.
    const Size flat = p.turn % 180 == 0 ? size : Size{size.height, size.width};
    glUniform2f(program_.place("step_size"), 1.0F / static_cast<float>(flat.width),
                1.0F / static_cast<float>(flat.height));
    const double shrink =
        std::max(static_cast<double>(p.size.width) / flat.width, static_cast<double>(p.size.height) / flat.height);
    glUniform1i(program_.place("taps"), std::clamp(static_cast<int>(std::ceil(shrink - 0.01)), 1, 4));
    // Chroma of 4:2:0 and 4:2:2 lies on the left luma sample of its pair (ITU-T H.264, figure E-1, type 0).
    const bool halved = p.kind == PlaneKind::yuv420 || p.kind == PlaneKind::yuv422 || p.kind == PlaneKind::nv12;
    glUniform2f(program_.place("chroma_shift"), halved ? 0.5F / static_cast<float>(p.size.width) : 0.0F, 0.0F);
    if (p.kind != PlaneKind::rgba) {
      const media::RgbFromYuv c = media::rgb_from_yuv(p.colour.matrix, p.colour.range, p.bits);
      glUniformMatrix3fv(program_.place("to_rgb"), 1, GL_TRUE, c.m.data());
      glUniform3fv(program_.place("offset"), 1, c.offset.data());
    }
    glUniform1i(program_.place("transfer"), p.colour.transfer == Transfer::pq    ? 1
                                            : p.colour.transfer == Transfer::hlg ? 2
                                                                                 : 0);
    glUniform1i(program_.place("wide"), p.colour.primaries == media::Primaries::bt2020 ? 1 : 0);
  }

  Program program_;
  Planes planes_;
  ToneTables tables_;
  Target target_;
  GLuint nothing_ = 0;  // core profile wants a vertex array even where there are no vertices
  media::PicturePtr shown_;
  Size size_;
};

}  // namespace

Outcome<std::unique_ptr<VideoView>> make_shader_view() {
  auto program = Program::build(embedded::video_vertex, embedded::video_fragment);
  if (!program) return program.fault();
  return std::unique_ptr<VideoView>(std::make_unique<ShaderView>(*std::move(program)));
}

}  // namespace sash::desk::inner
