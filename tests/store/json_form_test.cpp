#include "store/json_form.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <limits>

#include "made.h"

namespace sash::store {
namespace {

using test::random_record;
using test::small_record;

std::string head(const std::string& rest) { return R"({"format": "sashline record", "version": 1, )" + rest + "}"; }

Fault fault_of(const std::string& text) {
  const auto record = from_json(text);
  EXPECT_FALSE(record.ok()) << text;
  return record.ok() ? Fault() : record.fault();
}

std::string sentence_for(const std::string& text) { return fault_of(text).sentence; }

const std::string one_footage = R"("footages": [{"id": 1, "path": "a.mp4"}])";

// A record with one figure that has these fields beside its id.
std::string with_figure(const std::string& fields) {
  return head(one_footage + R"(, "figures": [{"id": 3, )" + fields + "}]");
}
const std::string at_start = R"("place": {"footage": 1, "from": {"ticks": 0}})";

TEST(JsonForm, GivesBackEveryRandomRecordExactly) {
  std::mt19937_64 random(99);
  for (int i = 0; i < 150; ++i) {
    const model::Record made = random_record(random);
    const std::string text = to_json(made);
    const auto back = from_json(text);
    ASSERT_TRUE(back.ok()) << back.fault().sentence << "\n" << text;
    ASSERT_EQ(*back, made) << text;
    ASSERT_EQ(to_json(*back), text);
  }
}

TEST(JsonForm, IsReadableAndSaysTicksAndSeconds) {
  model::Record r;
  r.bench.title = "Copper cycle";
  r.footages.push_back({{1}, "a.mp4", "", "", Moment::millis(1500), 0});
  EXPECT_EQ(to_json(r), R"({
  "format": "sashline record",
  "version": 1,
  "bench": {
    "title": "Copper cycle",
    "room_celsius": 20.0,
    "pressure_kpa": 101.325,
    "relative_humidity": 0.5,
    "reading_profile": ""
  },
  "footages": [
    {
      "id": 1,
      "path": "a.mp4",
      "fingerprint": "",
      "title": "",
      "duration": {
        "ticks": 8467200000,
        "seconds": 1.5
      },
      "order": 0
    }
  ],
  "lines": [],
  "portions": [],
  "figures": [],
  "hazards": [],
  "callouts": [],
  "notes": [],
  "chapters": [],
  "relations": []
}
)");
}

TEST(JsonForm, NeedsOnlyWhatHasNoDefault) {
  const auto record = from_json(with_figure(R"("place": {"footage": 1, "from": {"seconds": 2.5}})"));
  ASSERT_TRUE(record.ok()) << record.fault().sentence;
  model::Figure expected;
  expected.id = {3};
  expected.place = {{1}, Moment::millis(2500), std::nullopt};
  EXPECT_EQ(record->figures, std::vector<model::Figure>{expected});
  EXPECT_EQ(record->bench, model::Bench());
}

TEST(JsonForm, SortsListsById) {
  const auto record = from_json(head(R"("portions": [{"id": 9, "name": "b"}, {"id": 2, "name": "a"}])"));
  ASSERT_TRUE(record.ok());
  EXPECT_EQ(record->portions[0].id.number, 2);
  EXPECT_EQ(record->portions[1].id.number, 9);
}

TEST(JsonForm, NamesTheOffendingPlaceAndWhatWasExpected) {
  EXPECT_EQ(sentence_for(with_figure(at_start + R"(, "reading": {"value": "4"})")),
            "At /figures/0/reading/value: expected a number, found text.");
  EXPECT_EQ(fault_of(with_figure(at_start + R"(, "reading": {"value": "4"})")).offending, "/figures/0/reading/value");
  EXPECT_EQ(sentence_for(with_figure(at_start + R"(, "reading": {})")),
            "At /figures/0/reading: the field \"value\" is missing.");
  EXPECT_EQ(sentence_for(with_figure(at_start + R"(, "kind": "volme")")),
            "At /figures/0/kind: \"volme\" is none of the words known here; did you mean \"volume\"?");
  EXPECT_EQ(sentence_for(with_figure(at_start + R"(, "source": "dreamt")")),
            "At /figures/0/source: \"dreamt\" is none of the words known here (said, shown, read_off, worked_out).");
  EXPECT_EQ(sentence_for(with_figure(at_start + R"(, "porton": 2)")),
            "At /figures/0: there is no field \"porton\" here; did you mean \"portion\"?");
  EXPECT_EQ(sentence_for(with_figure(at_start + R"(, "portion": null)")),
            "At /figures/0/portion: expected a whole number from 1 to 9007199254740991, found null.");
  EXPECT_EQ(
      sentence_for(with_figure(R"("place": {"footage": 1, "from": 3.5})")),
      "At /figures/0/place/from: expected a time, an object with \"ticks\" or \"seconds\", found the number 3.5.");
  EXPECT_EQ(sentence_for(with_figure(R"("place": {"footage": 1, "from": {}})")),
            "At /figures/0/place/from: a time needs \"ticks\" or \"seconds\".");
  EXPECT_EQ(
      sentence_for(with_figure(R"("place": {"footage": 1, "from": {"ticks": 5644800000, "seconds": 2}})")),
      "At /figures/0/place/from: \"ticks\" and \"seconds\" say different times; leave out the one that is wrong.");
  EXPECT_EQ(sentence_for(with_figure(R"("place": {"footage": 1, "from": {"seconds": 1e300}})")),
            "At /figures/0/place/from: a time of more than 18 days cannot be kept.");
  EXPECT_EQ(sentence_for(with_figure(R"("place": {"footage": 2, "from": {"ticks": 0}})")),
            "At /figures/0/place/footage: nothing in the text has the id 2.");
  EXPECT_EQ(sentence_for(with_figure(at_start + R"(, "words": {"line": 1, "begin": -1, "length": 2})")),
            "At /figures/0/words/begin: expected a whole number from 0 to 4294967295, found the number -1.");
  EXPECT_EQ(sentence_for(head(R"("notes": {})")), "At /notes: expected a list, found an object.");
  EXPECT_EQ(sentence_for(head(R"("figure": [])")),
            "At the top: there is no field \"figure\" here; did you mean \"figures\"?");
  EXPECT_EQ(sentence_for(head(R"("portions": [{"id": 2, "name": ""}, {"id": 2, "name": ""}])")),
            "At /portions: two of them have the id 2.");
  EXPECT_EQ(sentence_for(head(R"("relations": [{"id": 1, "type": "heat", "given": {"a/b~": 1}}])")),
            "At /relations/0/given/a~1b~0: expected text, found the number 1.");
}

TEST(JsonForm, TellsAllOffenders) {
  const Fault fault = fault_of(head(R"("bench": {"title": 1, "pressure_kpa": true, "room": 3})"));
  EXPECT_EQ(fault.sentence, "At /bench/title: expected text, found the number 1.");
  EXPECT_THAT(fault.others, testing::ElementsAre("At /bench/pressure_kpa: expected a number, found true.",
                                                 "At /bench: there is no field \"room\" here."));
}

TEST(JsonForm, SaysWhereBrokenTextBreaks) {
  EXPECT_EQ(sentence_for(""), "The JSON text breaks off at line 1, column 1.");
  EXPECT_EQ(sentence_for("{\n  \"format\": "), "The JSON text breaks off at line 2, column 13.");
  EXPECT_EQ(sentence_for("{\n  \"format\" 1}"), "The JSON text is malformed at line 2, column 12.");
  EXPECT_EQ(sentence_for("{\"bench\": {\"title\": NaN}}"), "The JSON text is malformed at line 1, column 21.");
  EXPECT_EQ(sentence_for("{\"a\": \"caf\xe9\"}"), "The JSON text is malformed at line 1, column 12.");
  EXPECT_EQ(sentence_for("{\"a\": \"\\ud800\"}"), "The JSON text is malformed at line 1, column 14.");
  EXPECT_EQ(sentence_for("{\"a\": 1e999}"), "The JSON text has a number too large to keep at line 1, column 11.");
  EXPECT_EQ(sentence_for("{\"a\": 1, \"a\": 2}"), "The JSON text gives the name \"a\" twice in one object.");
  EXPECT_EQ(sentence_for(std::string(100000, '[')), "The JSON text nests deeper than 32 levels, which no record does.");
  EXPECT_EQ(sentence_for("[]"), "The JSON text is not an object, so it is no record.");
}

TEST(JsonForm, KnowsItsOwnFormatAndVersion) {
  EXPECT_EQ(sentence_for("{}"),
            "The JSON text is not a Sashline record: its field \"format\" is not \"sashline record\".");
  EXPECT_EQ(sentence_for(R"({"format": "sashline record"})"), "At /version: expected a whole number from 1.");
  const Fault newer = fault_of(R"({"format": "sashline record", "version": 2})");
  EXPECT_EQ(newer.code, Code::newer_version);
  EXPECT_EQ(newer.sentence,
            "The JSON text was written by a newer Sashline (its version is 2, this program reads 1); use the newer "
            "program.");
}

TEST(JsonFormDeathTest, ANumberThatIsNotFiniteIsABrokenPromise) {
  model::Record r = small_record();
  r.bench.room_celsius = std::numeric_limits<double>::quiet_NaN();
  EXPECT_DEATH(static_cast<void>(to_json(r)), "broken promise");
}

}  // namespace
}  // namespace sash::store
