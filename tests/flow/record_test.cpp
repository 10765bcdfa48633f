// The record as JSON and back, older and newer programs, and two of them at once.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "flow/program.h"
#include "session/scratch.h"

namespace sash::flow {
namespace {

using nlohmann::json;
using session::Scratch;

TEST(RecordCommand, WritesWhatTheSchemaAllows) {
  const Scratch scratch;
  const std::string out = scratch.path("record.json");
  const Ran written = sashline({"record", demo_record().string(), "--to", out});
  ASSERT_EQ(written.code, 0) << written.err;
  EXPECT_EQ(written.out, out + "\n");
  const std::string schema = std::string(SASH_SOURCE_DIR) + "/assets/record.schema.json";
  const std::vector<std::string> judge{SASH_PYTHON, "-W", "ignore", "-m", "jsonschema", "-i"};
  const auto judged = [&](const std::string& file) {
    auto command = judge;
    command.insert(command.end(), {file, schema});
    return ran(command);
  };
  const Ran fine = judged(out);
  EXPECT_EQ(fine.code, 0) << fine.err;
  // The judge does judge.
  json broken = json::parse(bytes_of(out));
  broken["figures"][0]["kind"] = "colour";
  EXPECT_NE(judged(scratch.write("broken.json", broken.dump())).code, 0);
}

TEST(RecordCommand, ComesBackAsItWas) {
  const Scratch scratch;
  const std::string first = scratch.path("first.json");
  const std::string copy = scratch.path("copy.sash");
  const std::string second = scratch.path("second.json");
  ASSERT_EQ(sashline({"record", demo_record().string(), "--to", first}).code, 0);
  const Ran made = sashline({"record", copy, "--from", first});
  ASSERT_EQ(made.code, 0) << made.err;
  EXPECT_EQ(made.out, copy + "\n");
  ASSERT_EQ(sashline({"record", copy, "--to", second}).code, 0);
  EXPECT_TRUE(bytes_of(first) == bytes_of(second));
  EXPECT_EQ(sashline({"record", copy, "--to", "-"}).out, bytes_of(first));
  EXPECT_EQ(sashline({"check", copy}).out, sashline({"check", demo_record().string()}).out);

  const Ran refused = sashline({"record", copy, "--from", first});
  EXPECT_EQ(refused.code, 2);
  EXPECT_EQ(refused.err, "sashline: There is already something at '" + copy + "'; choose another name.\n");
}

// A copy of the demo's record alone, whose footage stays behind.
std::string record_in(const Scratch& scratch) {
  const std::string json_file = scratch.path("demo.json");
  const std::string record = scratch.path("demo.sash");
  EXPECT_EQ(sashline({"record", demo_record().string(), "--to", json_file}).code, 0);
  EXPECT_EQ(sashline({"record", record, "--from", json_file}).code, 0);
  return record;
}

TEST(RecordCommand, ReadsARecordOfANewerProgramAndLeavesItAlone) {
  const Scratch scratch;
  const std::string record = record_in(scratch);
  output_of({"sqlite3", record, "PRAGMA wal_checkpoint(TRUNCATE); PRAGMA user_version = 999;"});
  const std::string before = bytes_of(record);
  const Ran checked = sashline({"check", record});
  EXPECT_EQ(checked.code, 1) << checked.err;
  EXPECT_EQ(checked.out, sashline({"check", demo_record().string()}).out);
  const Ran out = sashline({"record", record, "--to", scratch.path("out.json")});
  EXPECT_EQ(out.code, 0);
  const Ran script = sashline({"script", record, "--to", scratch.path("out")});
  EXPECT_EQ(script.code, 0);
  for (const Ran& each : {checked, out, script})
    EXPECT_NE(each.err.find("was written by a newer Sashline (its version is 999"), std::string::npos) << each.err;
  EXPECT_TRUE(bytes_of(record) == before) << "a newer record was changed";
}

TEST(RecordCommand, RefusesJsonOfANewerProgram) {
  const Scratch scratch;
  json newer = json::parse(sashline({"record", demo_record().string(), "--to", "-"}).out);
  newer["version"] = 999;
  const Ran refused = sashline({"record", scratch.path("a.sash"), "--from", scratch.write("a.json", newer.dump())});
  EXPECT_EQ(refused.code, 2);
  EXPECT_EQ(
      refused.err,
      "sashline: The JSON text was written by a newer Sashline (its version is 999, this program reads 1); use the "
      "newer program.\n");
  EXPECT_FALSE(fs::exists(scratch.path("a.sash")));
}

TEST(RecordCommand, OutlivesTheLossOfItsFootage) {
  const Scratch scratch;
  const std::string record = record_in(scratch);
  const std::string folder = scratch.path("script");
  const Ran written = sashline({"script", record, "--to", folder});
  EXPECT_EQ(written.code, 0) << written.err;
  EXPECT_EQ(bytes_of(fs::path(folder) / "callouts.vtt").find("WEBVTT"), 0U);
  EXPECT_EQ(bytes_of(fs::path(folder) / "script.html").find("data:image/jpeg"), std::string::npos);
}

// flock(1) holds the desk's lock as another desk would while the program works beside it.
TEST(RecordCommand, CanBeReadWhileAnotherDeskEditsIt) {
  const Scratch scratch;
  const std::string record = record_in(scratch);
  const std::string before = bytes_of(record);
  const auto beside_a_desk = [&](std::vector<std::string> arguments) {
    arguments.insert(arguments.begin(), {"flock", "--no-fork", record + ".desk", SASH_PROGRAM});
    return ran(arguments);
  };
  const Ran checked = beside_a_desk({"check", record});
  EXPECT_EQ(checked.code, 1) << checked.err;
  EXPECT_EQ(checked.out, sashline({"check", demo_record().string()}).out);
  EXPECT_EQ(beside_a_desk({"script", record, "--to", scratch.path("out")}).code, 0);
  EXPECT_TRUE(bytes_of(record) == before);
}

TEST(RecordCommand, SixAtOnceDoNoHarm) {
  const Scratch scratch;
  const std::string record = record_in(scratch);
  const std::string expected = sashline({"check", record}).out;
  const std::string all = output_of({"sh", "-c",
                                     "for i in 1 2 3 4 5 6; do '" SASH_PROGRAM "' check '" + record + "' >'" +
                                         scratch.path("out") + "'$i & done; wait; cat '" + scratch.path("out") + "'?"});
  std::string six;
  for (int i = 0; i < 6; ++i) six += expected;
  EXPECT_EQ(all, six);
  EXPECT_EQ(output_of({"sqlite3", record, "PRAGMA integrity_check;"}), "ok\n");
}

}  // namespace
}  // namespace sash::flow
