#include "clips.h"

#include <unistd.h>

#include <algorithm>
#include <array>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <map>
#include <memory>

#include "field_stream.h"
#include "support/text.h"

extern "C" {
#include <libavutil/md5.h>
#include <libavutil/mem.h>
}

namespace sash::media::test {
namespace {

// A moving test card: no two frames alike. 3 s at 30 frames a second unless said otherwise.
const std::string card = "-f lavfi -i testsrc2=size=320x180:rate=30:duration=3 ";
const std::string card25 = "-f lavfi -i testsrc2=size=320x180:rate=25:duration=3 ";
const std::string card2997 = "-f lavfi -i testsrc2=size=320x180:rate=30000/1001:duration=3 ";
const std::string tone = "-f lavfi -i sine=frequency=440:sample_rate=48000:duration=3 ";
const std::string tiny = "-f lavfi -i testsrc2=size=64x48:rate=25:duration=0.4 ";
const std::string tiny_tone = "-f lavfi -i sine=frequency=440:sample_rate=48000:duration=0.4 ";
const std::string small = "-f lavfi -i testsrc2=size=160x96:rate=30:duration=2 ";
const std::string small25 = "-f lavfi -i testsrc2=size=160x96:rate=25:duration=2 ";
const std::string small_tone = "-f lavfi -i sine=frequency=440:sample_rate=48000:duration=2 ";
const std::string x264 = "-c:v libx264 -preset ultrafast -pix_fmt yuv420p -threads 1 ";
const std::string x264_b = "-c:v libx264 -preset veryfast -bf 3 -pix_fmt yuv420p -threads 1 ";
const std::string x265 = "-c:v libx265 -preset ultrafast -tag:v hvc1 ";

std::string clicking(double sound, const std::string& before_sound = "") {
  return "-f lavfi -i testsrc2=size=160x96:rate=30:duration=2.5 " + before_sound +
         "-f lavfi -i \"aevalsrc='0.8*sin(2*PI*1000*t)*(between(t,0.7,0.71)+between(t,1.9,1.91))':s=48000:d=" +
         std::to_string(sound) + "\" ";
}

/// How each clip is made: ffmpeg's arguments up to the output name. {x} stands for the path of the clip x.
const std::map<std::string, std::string>& recipes() {
  static const std::map<std::string, std::string> all{
      {"h264_open_gop.mp4",
       card + tone + x264_b + "-x264-params open-gop=1:keyint=20:min-keyint=20:scenecut=0 -c:a aac"},
      {"h264_open_gop.mkv",
       card + tone + x264_b + "-x264-params open-gop=1:keyint=20:min-keyint=20:scenecut=0 -c:a aac"},
      {"h264_long_gop.mp4", card + tone + x264_b + "-g 250 -c:a aac"},
      {"h264_2997.mp4", card2997 + tone + x264_b + "-g 15 -c:a aac"},
      {"h264_444.mp4", card + "-c:v libx264 -preset ultrafast -pix_fmt yuv444p -g 30"},
      {"h264_422.mp4", card + "-c:v libx264 -preset ultrafast -pix_fmt yuv422p10le -g 30"},
      {"h264_rgb.mkv", card25 + "-c:v libx264rgb -preset ultrafast -qp 0 -g 30"},
      {"hevc8.mp4", card + tone + x265 + "-pix_fmt yuv420p -x265-params keyint=30:bframes=3:log-level=error -c:a aac"},
      {"hevc10.mp4", card + x265 + "-pix_fmt yuv420p10le -x265-params keyint=24:open-gop=1:bframes=4:log-level=error"},
      {"hevc10.mkv", card + x265 + "-pix_fmt yuv420p10le -x265-params keyint=24:open-gop=1:bframes=4:log-level=error"},
      {"hevc10.ts", card + x265 + "-pix_fmt yuv420p10le -x265-params keyint=24:open-gop=1:bframes=4:log-level=error"},
      {"vp9.webm", card + tone + "-c:v libvpx-vp9 -deadline realtime -cpu-used 8 -g 40 -c:a libopus"},
      {"vp8.webm",
       card + tone + "-c:v libvpx -deadline good -cpu-used 5 -auto-alt-ref 1 -lag-in-frames 16 -g 40 -c:a libopus"},
      {"av1.mp4", card25 + "-c:v libsvtav1 -preset 12 -g 30"},
      {"prores.mov", card25 + tone + "-c:v prores_ks -profile:v 2 -c:a pcm_s16le"},
      {"mjpeg.avi", card25 + tone + "-c:v mjpeg -q:v 4 -c:a libmp3lame"},
      {"h264_b.avi", card25 + tone + x264_b + "-g 30 -c:a libmp3lame"},
      {"mpeg2.mpg", card25 + tone + "-c:v mpeg2video -bf 2 -g 15 -b:v 2M -c:a mp2"},
      {"telecine.mpg",
       "-f lavfi -i testsrc2=size=160x96:rate=30:duration=2 -vf telecine,setfield=tff -c:v mpeg2video "
       "-flags +ilme+ildct -top 1"},
      {"h264.ts", card + tone + x264_b + "-g 30 -c:a ac3"},
      {"h264_open_gop.ts",
       card + tone + x264_b + "-x264-params open-gop=1:keyint=20:min-keyint=20:scenecut=0 -c:a aac"},
      {"fragmented.mp4", card + tone + x264_b + "-g 25 -c:a aac -movflags frag_keyframe+empty_moov+default_base_moof"},
      {"vfr.mkv", card + tone + "-vf \"select='not(eq(mod(n,7),3))*not(between(n,40,52))'\" -vsync vfr " + x264_b +
                      "-g 30 -c:a aac"},
      {"vfr.mp4", card + tone + "-vf \"select='not(eq(mod(n,7),3))*not(between(n,40,52))'\" -vsync vfr " + x264_b +
                      "-g 30 -c:a aac"},
      {"rotated.mp4", "-i {h264_2997.mp4} -c copy -metadata:s:v rotate=90"},
      {"anamorphic.mp4", card25 + "-vf setsar=4/3 " + x264},
      {"interlaced.mp4", "-f lavfi -i testsrc2=size=320x180:rate=50:duration=2 -vf tinterlace=mode=interleave_top " +
                             x264_b + "-flags +ilme+ildct -x264-params tff=1 -g 25"},
      {"edited.mp4", "-ss 1.1 -i {h264_long_gop.mp4} -c copy"},
      {"delayed_sound.mp4", "-i {h264_2997.mp4} -itsoffset 0.5 -i {h264_2997.mp4} -map 0:v -map 1:a -c copy"},
      {"delayed_picture.mp4", "-i {h264_2997.mp4} -itsoffset 0.5 -i {h264_2997.mp4} -map 0:a -map 1:v -c copy"},
      {"fields.ts", "-fflags +genpts -framerate 50 -f h264 -i {fields.h264} -c copy"},
      {"fields.mp4", "-i {fields.ts} -c copy"},
      {"fields.mkv", "-i {fields.ts} -c copy"},
      {"silent.mp4", card25 + x264 + "-g 25"},
      {"bare.h264", card25 + x264_b + "-g 25"},
      {"sound.m4a", tone + "-c:a aac"},
      {"sound.mp3", tone + "-c:a libmp3lame"},
      {"sound.wav", tone + "-c:a pcm_s16le"},
      {"sound.opus", tone + "-c:a libopus"},
      {"sound.ac3", tone + "-c:a ac3"},
      {"moov_last.mp4", card25 + tone + x264 + "-g 25 -c:a aac"},
      {"moov_first.mp4", card25 + tone + x264 + "-g 25 -c:a aac -movflags +faststart"},
      {"drop_frame.mov", card2997 + x264 + "-timecode '01:00:00;02'"},
      {"subtitled.mkv", "-i {h264_2997.mp4} -i {captions.srt} -c copy -c:s srt -metadata:s:s:0 language=eng"},
      {"located.mp4", "-i {h264_2997.mp4} -c copy -metadata location=+48.2000+016.3667/"},
      {"pq.mp4", card25 + x265 +
                     "-pix_fmt yuv420p10le -x265-params "
                     "log-level=error:colorprim=bt2020:transfer=smpte2084:colormatrix=bt2020nc:range=limited:"
                     "master-display='G(13250,34500)B(7500,3000)R(34000,16000)WP(15635,16450)L(10000000,1)'"},
      {"hlg.mp4", card25 + x265 +
                      "-pix_fmt yuv420p10le -x265-params "
                      "log-level=error:colorprim=bt2020:transfer=arib-std-b67:colormatrix=bt2020nc:range=limited"},
      {"hd.mp4", "-f lavfi -i testsrc2=size=1920x1080:rate=30:duration=4 " + tone + x264_b + "-g 60 -b:v 8M -c:a aac"},
      // Refreshed bit by bit instead of by key frames: whole only some frames behind each place of entry.
      {"h264_refresh.mp4", small + x264 + "-x264-params intra-refresh=1:keyint=20"},
      {"h264_refresh.ts", small + x264 + "-x264-params intra-refresh=1:keyint=20"},
      {"h264_pyramid.mkv",
       small + small_tone + x264_b + "-bf 8 -g 25 -x264-params b-pyramid=normal:b-adapt=0:open-gop=1 -c:a aac"},
      {"hevc_pyramid.mov", "-f lavfi -i testsrc2=size=160x96:rate=60000/1001:duration=2 " + x265 +
                               "-x265-params keyint=60:bframes=8:rc-lookahead=20:open-gop=1:log-level=error"},
      {"h264.m2ts", "-f lavfi -i testsrc2=size=160x96:rate=30000/1001:duration=2 " + small_tone + x264_b +
                        "-g 20 -c:a ac3 -mpegts_m2ts_mode 1"},
      // The time stamps of MPEG-2 streams have 33 bits of 1/90000 s and start anew after 26.5 hours.
      {"wrapping.ts", small + small_tone + x264_b + "-g 20 -c:a aac -muxdelay 0 -output_ts_offset 95442.7"},
      {"late.mkv", small + small_tone + x264_b + "-g 20 -c:a aac -output_ts_offset 3600"},
      {"early.mov",
       small + small_tone + x264 + "-g 20 -c:a pcm_s16le -output_ts_offset -0.5 -avoid_negative_ts disabled"},
      {"mpeg2.vob", "-f lavfi -i testsrc2=size=160x96:rate=30000/1001:duration=2 " + small_tone +
                        "-c:v mpeg2video -bf 2 -g 12 -c:a ac3 -f vob"},
      {"mpeg2.mxf", small25 + small_tone + "-c:v mpeg2video -bf 2 -g 12 -c:a pcm_s16le"},
      {"hidden.mp4", small + "-c:v libvpx-vp9 -deadline good -cpu-used 5 -lag-in-frames 25 -auto-alt-ref 1 -g 30"},
      {"av1.webm", small + small_tone + "-c:v libsvtav1 -preset 12 -g 20 -c:a libopus"},
      {"dv.avi", "-f lavfi -i testsrc2=size=720x576:rate=25:duration=0.6 -c:v dvvideo -pix_fmt yuv420p -flags +ilme"},
      {"dnxhr.mov",
       "-f lavfi -i testsrc2=size=320x180:rate=25:duration=1 "
       "-c:v dnxhd -profile:v dnxhr_hqx -pix_fmt yuv422p10le"},
      {"odd.webm",
       "-f lavfi -i testsrc2=size=157x91:rate=25:duration=2 -c:v libvpx-vp9 -deadline realtime -cpu-used 8 "
       "-g 20"},
      {"jitter.mp4", small +
                         "-vf \"settb=1/90000,setpts=PTS+random(1)*2000\" -vsync passthrough "
                         "-enc_time_base 1:90000 " +
                         x264_b + "-g 20 -video_track_timescale 90000"},
      {"slow.mkv", "-f lavfi -i testsrc2=size=160x96:rate=1/10:duration=200 " + x264_b + "-g 5"},
      {"fast.mp4", "-f lavfi -i testsrc2=size=160x96:rate=120000/1001:duration=1 " + x264_b + "-g 20"},
      {"below_zero.mp4", small + small_tone + x264_b + "-g 20 -c:a aac -movflags negative_cts_offsets"},
      {"each_frame_a_fragment.mp4",
       small + small_tone + x264_b + "-g 20 -c:a aac -movflags frag_every_frame+empty_moov+default_base_moof"},
      {"two_sounds.mkv", small + small_tone +
                             "-f lavfi -i sine=frequency=880:sample_rate=44100:duration=2 -map 0 -map 1 "
                             "-map 2 " +
                             x264_b + "-g 20 -c:a aac"},
      // For spoiling: small, so that much of them is structure.
      {"tiny.mp4", tiny + tiny_tone + x264_b + "-g 4 -c:a aac"},
      {"tiny_fragments.mp4", tiny + tiny_tone + x264_b + "-g 4 -c:a aac -movflags frag_keyframe+empty_moov"},
      {"tiny.mkv", tiny + tiny_tone + x264_b + "-g 4 -c:a libopus"},
      {"tiny.ts", tiny + tiny_tone + x264_b + "-g 4 -c:a ac3"},
      {"tiny.avi", tiny + tiny_tone + "-c:v mjpeg -q:v 20 -c:a libmp3lame"},
      {"tiny.mov", tiny + tiny_tone + "-c:v prores_ks -profile:v 0 -c:a pcm_s16le -timecode 01:00:00:00"},
      {"tiny.webm", tiny + "-c:v libvpx-vp9 -deadline realtime -cpu-used 8 -g 4"},
      {"tiny_hevc.mp4", tiny + x265 + "-pix_fmt yuv420p10le -x265-params keyint=4:log-level=error"},
      {"tiny.mpg", tiny + tiny_tone + "-c:v mpeg2video -bf 2 -g 4 -c:a mp2"},
      {"tiny.wav", tiny_tone + "-c:a pcm_s16le"},
      // Clicks of 1 kHz beside a moving picture of 2.5 s; the sound ends before it, begins late, or goes on behind it.
      {"clicks_ac3.ts", clicking(2.5) + x264_b + "-g 20 -c:a ac3"},
      {"clicks_short_sound.ts", clicking(2.2) + x264_b + "-g 20 -c:a ac3"},
      {"clicks_long_sound.ts", clicking(2.8) + x264_b + "-g 20 -c:a ac3"},
      {"clicks_late_sound.ts", clicking(2.4, "-itsoffset 0.21 ") + x264_b + "-g 20 -c:a ac3"},
      {"clicks_mp2.mpg", clicking(2.5) + "-c:v mpeg2video -bf 2 -g 15 -c:a mp2"},
      {"clicks.wav",
       "-f lavfi -i \"aevalsrc='if(between(t,1,1.005),0.5,0)-if(between(t,2.5,2.505),0.25,0)':s=48000:d=3\" "
       "-c:a pcm_s16le"},
  };
  return all;
}

[[noreturn]] void give_up(const std::string& why) {
  std::fprintf(stderr, "test clips: %s\n", why.c_str());
  std::abort();
}

std::string shell_quoted(const fs::path& p) { return "'" + replace_all(p.string(), "'", "'\\''") + "'"; }

std::string with_clips(std::string arguments) {
  for (std::size_t open = arguments.find('{'); open != std::string::npos; open = arguments.find('{')) {
    const std::size_t close = arguments.find('}', open);
    const std::string name = arguments.substr(open + 1, close - open - 1);
    arguments.replace(open, close - open + 1, shell_quoted(clip(name)));
  }
  return arguments;
}

}  // namespace

fs::path clip_folder() {
  const fs::path folder = SASH_TEST_CLIPS;
  fs::create_directories(folder);
  return folder;
}

fs::path clip(const std::string& name) {
  if (name == "captions.srt") return clip_of_bytes(name, "1\n00:00:00,500 --> 00:00:01,500\nGoggles on.\n");
  if (name == "fields.h264") return clip_of_bytes(name, field_stream(50, 10));
  const auto recipe = recipes().find(name);
  if (recipe == recipes().end()) give_up("no recipe for " + name);
  const fs::path file = clip_folder() / name;
  const fs::path note = clip_folder() / (name + ".recipe");
  const std::string arguments = with_clips(recipe->second);
  if (fs::exists(file) && fs::exists(note) && bytes_of(note) == arguments) return file;
  // Written aside first: two test programs may make the same clip at once.
  const fs::path aside = clip_folder() / ("aside-" + std::to_string(getpid()) + "-" + name);
  output_of("ffmpeg -y -nostdin -hide_banner -loglevel error " + arguments + " " + shell_quoted(aside) + " 2>&1");
  fs::rename(aside, file);
  std::ofstream(note, std::ios::binary) << arguments;
  return file;
}

fs::path clip_of_bytes(const std::string& name, const std::string& bytes) {
  const fs::path file = clip_folder() / name;
  std::ofstream out(file, std::ios::binary);
  out << bytes;
  if (!out.flush()) give_up("cannot write " + file.string());
  return file;
}

std::string bytes_of(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  if (!in) give_up("cannot read " + file.string());
  std::string bytes(fs::file_size(file), '\0');
  in.read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  return bytes;
}

std::string output_of(const std::string& command) {
  FILE* pipe = popen(command.c_str(), "r");
  if (pipe == nullptr) give_up("cannot run: " + command);
  std::string text;
  std::array<char, 4096> buffer{};
  while (const std::size_t n = std::fread(buffer.data(), 1, buffer.size(), pipe)) text.append(buffer.data(), n);
  if (pclose(pipe) != 0) give_up("this command failed: " + command + "\n" + text);
  return text;
}

namespace {

/// What was asked once about a file is kept while it stays the same.
template <class Answer>
Answer asked_once(const fs::path& file, Answer (*ask)(const fs::path&)) {
  static std::map<std::pair<fs::path, fs::file_time_type>, Answer> kept;
  const std::pair key(file, fs::last_write_time(file));
  const auto found = kept.find(key);
  return found != kept.end() ? found->second : kept.emplace(key, ask(file)).first->second;
}

std::vector<Moment> ask_times(const fs::path& file) {
  const std::string streams =
      output_of("ffprobe -v error -show_entries stream=codec_type,time_base,start_pts -of compact=p=0:nk=1 " +
                shell_quoted(file));
  std::optional<Moment> origin;
  std::int64_t num = 0;
  std::int64_t den = 0;
  bool sound = false;
  // The first of each kind: a second sound or a cover picture is not what is played.
  for (const auto line : split_lines(streams)) {
    const auto cells = split(line, '|');
    if (cells.size() < 3 || (cells[0] != "video" && cells[0] != "audio")) continue;
    const bool picture = cells[0] == "video";
    if (picture ? den != 0 : sound) continue;
    const auto base = split(cells[1], '/');
    const auto n = read_integer(base[0]);
    const auto d = read_integer(base[1]);
    if (picture) {
      num = *n;
      den = *d;
    }
    sound = sound || !picture;
    if (const auto start = read_integer(cells[2])) {
      const Moment m = Moment::rational(*start, *n, *d);
      origin = origin ? std::min(*origin, m) : m;
    }
  }
  if (den == 0) give_up("ffprobe names no picture in " + file.string());
  std::vector<Moment> times;
  const std::string frames =
      output_of("ffprobe -v error -select_streams v:0 -show_entries frame=best_effort_timestamp -of csv=p=0 " +
                shell_quoted(file));
  for (const auto line : split_lines(frames)) {
    if (const auto stamp = read_integer(split(line, ',')[0]))
      times.push_back(Moment::rational(*stamp, num, den) - origin.value_or(Moment()));
  }
  return times;
}

std::vector<std::string> ask_hashes(const fs::path& file) {
  const std::string text = output_of("ffmpeg -nostdin -v error -noautorotate -i " + shell_quoted(file) +
                                     " -map 0:v:0 -vsync passthrough -c:v rawvideo -f framemd5 - 2>/dev/null");
  std::vector<std::string> hashes;
  for (const auto line : split_lines(text)) {
    if (line.starts_with("#")) continue;
    hashes.emplace_back(trim(split(line, ',').back()));
  }
  return hashes;
}

}  // namespace

std::vector<Moment> listed_times(const fs::path& file) { return asked_once(file, ask_times); }
std::vector<std::string> listed_hashes(const fs::path& file) { return asked_once(file, ask_hashes); }

std::string md5_of(const Picture& p) {
  struct Free {
    void operator()(AVMD5* m) const { av_free(m); }
  };
  const std::unique_ptr<AVMD5, Free> md5(av_md5_alloc());
  av_md5_init(md5.get());
  for (std::size_t i = 0; i < p.planes.size(); ++i) {
    const Plane& plane = p.planes[i];
    std::size_t row = static_cast<std::size_t>(plane.width) * (p.bits > 8 ? 2 : 1);
    if (p.kind == PlaneKind::rgba) row *= 4;
    if (p.kind == PlaneKind::nv12 && i == 1) row *= 2;
    for (int y = 0; y < plane.height; ++y) av_md5_update(md5.get(), plane.bytes + y * plane.stride, row);
  }
  std::array<std::uint8_t, 16> digest{};
  av_md5_final(md5.get(), digest.data());
  std::string text;
  for (const std::uint8_t b : digest) {
    constexpr const char* hex = "0123456789abcdef";
    text += hex[b >> 4];
    text += hex[b & 15];
  }
  return text;
}

}  // namespace sash::media::test
