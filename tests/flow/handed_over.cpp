#include "flow/handed_over.h"

#include <gtest/gtest.h>

#include "flow/program.h"

namespace sash::flow {

std::map<std::string, std::string> handed_over(const session::Scratch& scratch, const std::string& clip) {
  std::map<std::string, std::string> all;
  const auto run = [&](const std::string& name, std::vector<std::string> arguments) {
    const Ran ran = sashline(std::move(arguments));
    EXPECT_EQ(ran.code, 0) << name << ": " << ran.err;
    all[name] = ran.out + ran.err;
    return ran.out;
  };
  const std::string captions = scratch.write("clip.srt",
                                             "1\r\n00:00:00,100 --> 00:00:00,700\r\nThe dog weighs 12 kg.\r\n\r\n"
                                             "2\r\n00:00:00,700 --> 00:00:01,500\r\nIt drinks 250 mL of water.\r\n");
  const std::string record = scratch.path("clip.sash");
  // Both lines state one figure each: they come in as proposals.
  EXPECT_EQ(run("begin", {"begin", record, "--footage", clip, "--narration", captions}),
            record + ": 1 footage, 2 narration lines, 2 figures, 0 relations\n");
  run("script", {"script", record, "--to", scratch.path("out")});
  run("still", {"still", clip, "--at", "0.3", "--to", scratch.path("out/still.png")});
  run("record", {"record", record, "--to", scratch.path("out/again.json")});
  run("check", {"check", record});
  run("footage", {"footage", clip, "--json"});
  all["the record"] = bytes_of(record);
  std::size_t pictures = 0;
  for (const auto& entry : fs::directory_iterator(scratch.path("out"))) {
    const std::string bytes = bytes_of(entry.path());
    all[entry.path().filename().string()] = bytes;
    for (std::size_t at = 0; (at = bytes.find(";base64,", at)) != std::string::npos;) {
      at += 8;
      const std::string coded = scratch.write("coded", bytes.substr(at, bytes.find_first_of("\"')", at) - at));
      all["picture " + std::to_string(++pictures)] = output_of({"base64", "--decode", coded});
    }
  }
  EXPECT_GE(pictures, 1U);
  EXPECT_GE(all.size(), 7U + 8U + 2U);
  return all;
}

}  // namespace sash::flow
