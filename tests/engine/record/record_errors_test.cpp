// Every error that the reader of records can give: an input, and the text that a person sees.

#include <algorithm>
#include <catch2/catch.hpp>
#include <set>
#include <string>

#include "engine/record.h"

namespace engine {
namespace {

std::string errors_of(std::string_view text) {
  const auto record = read_record(text, "r.json");
  if (record) return "no error";
  std::string out;
  for (const Error& error : record.errors()) out += text_of(error);
  return out;
}

/// An examination that is whole but for one key.
std::string with_exam(const std::string& key) {
  return R"({"exam":{"date":"2026-03-10","lesions":[],)" + key + "}}";
}

std::string with_lesion(const std::string& keys) {
  return R"({"exam":{"date":"2026-03-10","lesions":[{)" + keys + "}]}}";
}

std::string with_patient(const std::string& keys) {
  return R"({"patient":{)" + keys + R"(},"exam":{"date":"2026-03-10","lesions":[]}})";
}

std::string with_setting(const std::string& keys) {
  return R"({"exam":{"date":"2026-03-10","lesions":[]},"setting":{)" + keys + "}}";
}

struct Row {
  const char* because;
  std::string record;
  const char* errors;
};

TEST_CASE("a text that is not JSON is refused where it breaks", "[record][errors]") {
  const auto row = GENERATE(values<Row>({
      {"no text at all", "",
       "r.json: error: there is no record: the text is empty\n"
       "  help: a record is a JSON object with `exam` in it\n"},
      {"nothing but white space", " \r\n",
       "r.json: error: there is no record: the text is empty\n"
       "  help: a record is a JSON object with `exam` in it\n"},
      {"it ends too early", R"({"exam":)",
       "r.json:1:9: error: this is not JSON: unexpected end of input; expected `[`, `{`, or a literal\n"
       "    1 | {\"exam\":\n"
       "      |         ^\n"},
      {"a comma is missing", "{\"exam\":{\n\"date\":\"2026-03-10\"\n\"lesions\":[]}}",
       "r.json:3:9: error: this is not JSON: unexpected string literal; expected `}`\n"
       "    3 | \"lesions\":[]}}\n"
       "      |         ^\n"},
      {"two records in one text", "{}{}",
       "r.json:1:3: error: this is not JSON: unexpected `{`; expected end of input\n"
       "    1 | {}{}\n"
       "      |   ^\n"},
      {"single quotation marks", "{'exam':1}",
       "r.json:1:2: error: this is not JSON: invalid literal; expected string literal\n"
       "    1 | {'exam':1}\n"
       "      |  ^\n"},
      {"a tab inside text", "{\"é\t\":1}",
       "r.json:1:4: error: this is not JSON: invalid string: control character U+0009 (HT) must be escaped "
       "to "
       "\\u0009 or \\t; expected string literal\n"
       "    1 | {\"é \":1}\n"
       "      |    ^\n"},
      {"a byte that is no UTF-8", "[\"a\xFF\"]",
       "r.json:1:4: error: this is not JSON: invalid string: ill-formed UTF-8 byte\n"
       "    1 | [\"a\xEF\xBF\xBD\"]\n"
       "      |    ^\n"},
      {"a number beyond all numbers", "[1e999]",
       "r.json:1:2: error: the number `1e999` is too large to be read\n"
       "    1 | [1e999]\n"
       "      |  ^^^^^\n"},
      {"a whole number with too many digits", "[123456789012345678901]",
       "r.json:1:2: error: the number `123456789012345678901` is too large to be read\n"
       "    1 | [123456789012345678901]\n"
       "      |  ^^^^^^^^^^^^^^^^^^^^^\n"},
  }));
  INFO(row.because << ": " << row.record);
  CHECK(errors_of(row.record) == row.errors);
}

TEST_CASE("a text that would cost too much is refused", "[record][errors]") {
  const std::size_t limit = 16 * 1024 * 1024;
  CHECK(errors_of(std::string(limit, ' ') + "{}") ==
        "r.json: error: the text has 16777218 bytes: at most 16777216 are read for one record\n");
  const auto deep = read_record(std::string(5000, '[') + std::string(5000, ']'), "r.json");
  REQUIRE_FALSE(deep);
  CHECK(deep.errors().front().code == "not_json");
  CHECK(deep.errors().front().message == "the text is nested more than 1023 levels deep");
}

TEST_CASE("a record has its keys and no others", "[record][errors]") {
  const auto row = GENERATE(values<Row>({
      {"a list is no record", "[]",
       "r.json: error: a list was read, expected a record, which is an object\n"},
      {"nor is what stands under `given`", R"({"given":3})",
       "r.json: error: `3` was read, expected a record, which is an object\n"},
      {"a record needs an examination", "{}",
       "r.json: exam: error: a record needs `exam`, which is left out or null\n"},
      {"and that a date", R"({"exam":{"date":null,"lesions":[]}})",
       "r.json: exam.date: error: an examination needs `date`, which is left out or null\n"},
      {"keys of one's own need `given`", R"({"id":"x","exam":{"date":"2026-03-10","lesions":[]}})",
       "r.json: id: error: a record has no `id`\n"
       "  help: a record has `patient`, `exam`, `previous` and `setting`; keys of your own may stand beside "
       "a record "
       "that stands under `given`\n"},
      {"`given` twice", R"({"given":{},"given":{"exam":{"date":"2026-03-10","lesions":[]}}})",
       "r.json: given: error: the key `given` stands twice in the same object\n"
       "  help: keep the one that is right\n"},
      {"`id` twice beside it", R"({"id":1,"id":2,"given":{"exam":{"date":"2026-03-10","lesions":[]}}})",
       "r.json: id: error: the key `id` stands twice in the same object\n"
       "  help: keep the one that is right\n"},
      {"a key twice, even with the same value", with_lesion(R"("removal":"en bloc","removal":"not removed")"),
       "r.json: exam.lesions[0].removal: error: the key `removal` stands twice in the same object\n"
       "  help: keep the one that is right\n"},
      {"a key twice, once null", with_lesion(R"("removal":null,"removal":"not removed")"),
       "r.json: exam.lesions[0].removal: error: the key `removal` stands twice in the same object\n"
       "  help: keep the one that is right\n"},
      {"a misspelled key", with_lesion(R"("size":12)"),
       "r.json: exam.lesions[0].size: error: a lesion has no `size`\n"
       "  help: did you mean `size_mm`? a lesion has `id`, `number`, `site`, `size_mm`, `paris`, `removal`, "
       "`retrieved`, `specimen` and `histology`\n"},
      {"a key of another object", with_exam(R"("preparation":{"right":2})"),
       "r.json: exam.preparation.right: error: a preparation has no `right`\n"
       "  help: a preparation has `boston` and `graded`\n"},
      {"a key of a value within bounds", with_lesion(R"("size_mm":{"from":8,"to":9,"about":8})"),
       "r.json: exam.lesions[0].size_mm.about: error: a value within bounds has no `about`\n"
       "  help: a value within bounds has `from` and `to`\n"},
      {"an identifier without a system", with_patient(R"("identifiers":[{"value":"1"}])"),
       "r.json: patient.identifiers[0].system: error: an identifier needs `system`, which is left out or "
       "null\n"},
      {"a contact that has no such key", with_patient(R"("contact":{"phone":"1"})"),
       "r.json: patient.contact.phone: error: a contact has no `phone`\n"
       "  help: a contact has `telephone`, `email` and `address`\n"},
      {"an address is lines, none of them blank",
       with_patient(R"("contact":{"address":["1 Mill Lane"," "]})"),
       "r.json: patient.contact.address[1]: error: the text is blank, expected text\n"
       "  help: leave the key out when it is not known\n"},
      {"an address is a list", with_patient(R"("family_doctor":{"address":"1 Mill Lane"})"),
       "r.json: patient.family_doctor.address: error: the text `1 Mill Lane` was read, expected a list\n"},
      {"a complication without a kind", with_exam(R"("complications":[{"on":"2026-03-10"}])"),
       "r.json: exam.complications[0].kind: error: a complication needs `kind`, which is left out or null\n"},
      {"a complication that is no term", with_exam(R"("complications":[{"kind":"bleed"}])"),
       "r.json: exam.complications[0].kind: error: `bleed` is no term for this, expected `bleeding`, "
       "`perforation`, `post-polypectomy syndrome`, `cardiorespiratory`, `sedation-related` or `other`\n"
       "  help: did you mean `bleeding`?\n"},
      {"a relative without a degree", with_patient(R"("relatives":[{"cancer":"colorectal"}])"),
       "r.json: patient.relatives[0].degree: error: a relative needs `degree`, which is left out or null\n"},
  }));
  INFO(row.because << ": " << row.record);
  CHECK(errors_of(row.record) == row.errors);
}

TEST_CASE("a value is of its kind and within its bounds", "[record][errors]") {
  const auto row = GENERATE(values<Row>({
      {"a list is no lesion", R"({"exam":{"date":"2026-03-10","lesions":[[]]}})",
       "r.json: exam.lesions[0]: error: a list was read, expected a lesion, which is an object\n"},
      {"null is no lesion", R"({"exam":{"date":"2026-03-10","lesions":[null]}})",
       "r.json: exam.lesions[0]: error: `null` was read, expected a lesion, which is an object\n"},
      {"an object is no list", R"({"exam":{"date":"2026-03-10","lesions":{}}})",
       "r.json: exam.lesions: error: an object was read, expected a list\n"},
      {"a number in quotation marks", with_lesion(R"("size_mm":"12")"),
       "r.json: exam.lesions[0].size_mm: error: the text `12` was read, expected millimetres, more than 0 "
       "and at "
       "most 300\n"
       "  help: write `12` without quotation marks\n"},
      {"no size", with_lesion(R"("size_mm":0)"),
       "r.json: exam.lesions[0].size_mm: error: `0` is out of bounds, expected millimetres, more than 0 and "
       "at most "
       "300\n"},
      {"an impossible size", with_lesion(R"("size_mm":900)"),
       "r.json: exam.lesions[0].size_mm: error: `900` is out of bounds, expected millimetres, more than 0 "
       "and at "
       "most 300\n"},
      {"just too large", with_lesion(R"("size_mm":300.1)"),
       "r.json: exam.lesions[0].size_mm: error: `300.1` is out of bounds, expected millimetres, more than 0 "
       "and at "
       "most 300\n"},
      {"hundredths of a millimetre", with_lesion(R"("size_mm":12.34)"),
       "r.json: exam.lesions[0].size_mm: error: `12.34` has more than one decimal, expected tenths of a "
       "millimetre\n"},
      {"an end of bounds that is no size", with_lesion(R"("size_mm":{"from":0,"to":"x"})"),
       "r.json: exam.lesions[0].size_mm.from: error: `0` is out of bounds, expected millimetres, more than 0 "
       "and at "
       "most 300\n"
       "r.json: exam.lesions[0].size_mm.to: error: the text `x` was read, expected millimetres, more than 0 "
       "and at "
       "most 300\n"},
      {"one end only", with_lesion(R"("size_mm":{"from":8})"),
       "r.json: exam.lesions[0].size_mm.to: error: a value within bounds needs `to`\n"
       "  help: give both ends, such as {\"from\":8,\"to\":12}\n"},
      {"no polyp", with_lesion(R"("number":0)"),
       "r.json: exam.lesions[0].number: error: `0` is out of bounds, expected a whole number from 1 to "
       "200\n"},
      {"half a polyp", with_lesion(R"("number":1.5)"),
       "r.json: exam.lesions[0].number: error: `1.5` is out of bounds, expected a whole number from 1 to "
       "200\n"},
      {"a Boston score of 4", with_exam(R"("preparation":{"boston":{"right":4}})"),
       "r.json: exam.preparation.boston.right: error: `4` is out of bounds, expected a whole number from 0 "
       "to 3\n"},
      {"a fourth degree", with_patient(R"("relatives":[{"degree":4,"cancer":"colorectal"}])"),
       "r.json: patient.relatives[0].degree: error: `4` is out of bounds, expected a whole number from 1 to "
       "3\n"},
      {"an age of 121", with_patient(R"("relatives":[{"degree":1,"cancer":"colorectal","age":121}])"),
       "r.json: patient.relatives[0].age: error: `121` is out of bounds, expected a whole number from 0 to "
       "120\n"},
      {"`yes` is not true", with_lesion(R"("retrieved":"yes")"),
       "r.json: exam.lesions[0].retrieved: error: the text `yes` was read, expected `true` or `false`\n"},
      {"a term that is a number", with_lesion(R"("paris":1)"),
       "r.json: exam.lesions[0].paris: error: `1` was read, expected `0-Ip`, `0-Isp`, `0-Is`, `0-IIa`, "
       "`0-IIb` or "
       "`0-IIc`\n"},
      {"a number where text belongs", with_exam(R"("place":3)"),
       "r.json: exam.place: error: `3` was read, expected text\n"},
      {"blank text", with_exam(R"("place":" ")"),
       "r.json: exam.place: error: the text is blank, expected text\n"
       "  help: leave the key out when it is not known\n"},
  }));
  INFO(row.because << ": " << row.record);
  CHECK(errors_of(row.record) == row.errors);
}

TEST_CASE("a term is matched letter by letter", "[record][errors]") {
  const auto row = GENERATE(values<Row>({
      {"a misspelled term", with_lesion(R"("paris":"O-Is")"),
       "r.json: exam.lesions[0].paris: error: `O-Is` is no term for this, expected `0-Ip`, `0-Isp`, `0-Is`, "
       "`0-IIa`, `0-IIb` or `0-IIc`\n"
       "  help: did you mean `0-Is`?\n"},
      {"a capital", with_patient(R"("sex":"Female")"),
       "r.json: patient.sex: error: `Female` is no term for this, expected `female`, `male` or `unknown`\n"
       "  help: did you mean `female`?\n"},
      {"a term of something else", with_lesion(R"("removal":"clear")"),
       "r.json: exam.lesions[0].removal: error: `clear` is no term for this, expected `en bloc`, "
       "`piecemeal`, "
       "`biopsy only` or `not removed`\n"},
      {"a gene", with_patient(R"("conditions":[{"name":"lynch syndrome","gene":"MLH"}])"),
       "r.json: patient.conditions[0].gene: error: `MLH` is no term for this, expected `MLH1`, `MSH2`, "
       "`MSH6`, "
       "`PMS2`, `EPCAM`, `APC` or `MUTYH`\n"
       "  help: did you mean `MLH1`?\n"},
      {"a nation that is misspelled", with_setting(R"("nation":"Scottland")"),
       "r.json: setting.nation: error: `Scottland` is no term for this, expected `England`, `Scotland`, "
       "`Wales` or "
       "`Northern Ireland`\n"
       "  help: did you mean `Scotland`?\n"},
      {"nothing that it may be", with_lesion(R"("removal":[])"),
       "r.json: exam.lesions[0].removal: error: an empty list was read, expected the terms that it may be\n"
       "  help: leave the key out when it is not known\n"},
      {"the same twice", with_lesion(R"("removal":["en bloc","piecemeal","en bloc"])"),
       "r.json: exam.lesions[0].removal[2]: error: the text `en bloc` stands twice in the list of what it "
       "may be\n"},
      {"an unknown term among others", with_lesion(R"("removal":["en bloc","peacemeal"])"),
       "r.json: exam.lesions[0].removal[1]: error: `peacemeal` is no term for this, expected `en bloc`, "
       "`piecemeal`, "
       "`biopsy only` or `not removed`\n"
       "  help: did you mean `piecemeal`?\n"},
      {"a term is shown without what could steer a terminal", with_lesion(R"("removal":"\u001b[2J")"),
       "r.json: exam.lesions[0].removal: error: `\xEF\xBF\xBD[2J` is no term for this, expected `en bloc`, "
       "`piecemeal`, `biopsy only` or `not removed`\n"},
  }));
  INFO(row.because << ": " << row.record);
  CHECK(errors_of(row.record) == row.errors);
}

TEST_CASE("a date exists and lies in the years of people now alive", "[record][errors]") {
  const auto row = GENERATE(values<Row>({
      {"30 February", R"({"exam":{"date":"2026-02-30","lesions":[]}})",
       "r.json: exam.date: error: `2026-02-30` is no date that exists, expected a date from 1900-01-01 to "
       "2200-12-31, "
       "as year-month-day\n"},
      {"day, month, year", R"({"exam":{"date":"10/03/2026","lesions":[]}})",
       "r.json: exam.date: error: `10/03/2026` is no date that exists, expected a date from 1900-01-01 to "
       "2200-12-31, "
       "as year-month-day\n"},
      {"a date and a time", R"({"exam":{"date":"2026-03-10T09:00:00","lesions":[]}})",
       "r.json: exam.date: error: `2026-03-10T09:00:00` is no date that exists, expected a date from "
       "1900-01-01 to "
       "2200-12-31, as year-month-day\n"},
      {"a number", R"({"exam":{"date":20260310,"lesions":[]}})",
       "r.json: exam.date: error: `20260310` was read, expected a date from 1900-01-01 to 2200-12-31, as "
       "year-month-day\n"},
      {"long ago", R"({"exam":{"date":"1066-10-14","lesions":[]}})",
       "r.json: exam.date: error: `1066-10-14` is out of bounds, expected a date from 1900-01-01 to "
       "2200-12-31, as "
       "year-month-day\n"},
      {"the day after the last", R"({"exam":{"date":"2201-01-01","lesions":[]}})",
       "r.json: exam.date: error: `2201-01-01` is out of bounds, expected a date from 1900-01-01 to "
       "2200-12-31, as "
       "year-month-day\n"},
      {"a thirteenth month",
       with_patient(R"("conditions":[{"name":"ulcerative colitis","onset":"2009-13"}])"),
       "r.json: patient.conditions[0].onset: error: `2009-13` is no date that exists, expected a year such "
       "as `2009`, "
       "a month such as `2009-05`, or a full date\n"},
  }));
  INFO(row.because << ": " << row.record);
  CHECK(errors_of(row.record) == row.errors);
}

TEST_CASE("facts that cannot both be true are named, both of them", "[record][errors]") {
  const auto row = GENERATE(values<Row>({
      {"examined before birth", with_patient(R"("birth_date":"2026-03-11")"),
       "r.json: exam.date: error: the examination of `2026-03-10` is before `patient.birth_date` "
       "`2026-03-11`\n"},
      {"older than anyone", with_patient(R"("birth_date":"1905-03-10")"),
       "r.json: exam.date: error: the examination of `2026-03-10` is more than 120 years after "
       "`patient.birth_date` `1905-03-10`\n"},
      {"an earlier examination that is later",
       R"({"exam":{"date":"2026-03-10","lesions":[]},"previous":[{"date":"2026-03-11","lesions":[]}]})",
       "r.json: previous[0].date: error: the earlier examination of `2026-03-11` is later than `exam.date` "
       "`2026-03-10`\n"},
      {"earlier examinations, the newest first",
       R"({"exam":{"date":"2026-03-10","lesions":[]},
           "previous":[{"date":"2022-01-01","lesions":[]},{"date":"2021-01-01","lesions":[]}]})",
       "r.json: previous[1].date: error: the examination of `2021-01-01` stands after that of `2022-01-01`, "
       "expected "
       "the oldest first\n"},
      {"operated on before birth",
       with_patient(
           R"("birth_date":"1960-05-17","conditions":[{"name":"colorectal cancer resected","resection_date":"1960-05-16"}])"),
       "r.json: patient.conditions[0].resection_date: error: `resection_date` `1960-05-16` is before "
       "`patient.birth_date` `1960-05-17`\n"},
      {"ill before birth",
       with_patient(
           R"("birth_date":"1960-05-17","conditions":[{"name":"ulcerative colitis","onset":"1959"}])"),
       "r.json: patient.conditions[0].onset: error: `onset` `1959` is before `patient.birth_date` "
       "`1960-05-17`\n"},
      {"ill only after the examination",
       with_patient(R"("conditions":[{"name":"ulcerative colitis","onset":"2026-04"}])"),
       "r.json: patient.conditions[0].onset: error: `onset` `2026-04` is after `exam.date` `2026-03-10`\n"},
      {"a pot sent before the examination", with_exam(R"("specimens":[{"id":"A","sent":"2026-03-09"}])"),
       "r.json: exam.specimens[0].sent: error: `sent` `2026-03-09` is before the examination's `date` "
       "`2026-03-10`\n"},
      {"left in place and retrieved", with_lesion(R"("removal":"not removed","retrieved":true)"),
       "r.json: exam.lesions[0].retrieved: error: `retrieved` `true` is given, but `removal` `not "
       "removed`\n"},
      {"left in place and under the microscope",
       with_lesion(R"("removal":"not removed","histology":{"type":"hamartoma"})"),
       "r.json: exam.lesions[0].histology: error: a `histology` is given, but `removal` `not removed`\n"},
      {"lost and under the microscope",
       with_lesion(R"("removal":"en bloc","retrieved":false,"histology":{"margin":"clear"})"),
       "r.json: exam.lesions[0].histology: error: a `histology` is given, but `retrieved` `false`: what was "
       "not "
       "retrieved has none\n"},
      {"left in place in a bowel that is cleared",
       R"({"exam":{"date":"2026-03-10","cleared":true,"lesions":[{"removal":"not removed"}]}})",
       "r.json: exam.lesions[0].removal: error: `removal` `not removed` is given, but the examination says "
       "`cleared` "
       "`true`\n"},
      {"a larger one left in place in a bowel that is cleared",
       R"({"exam":{"date":"2026-03-10","cleared":true,"lesions":[{"removal":"not removed","size_mm":5},{"removal":"not removed","size_mm":6}]}})",
       "r.json: exam.lesions[1].removal: error: `removal` `not removed` is given, but the examination says "
       "`cleared` "
       "`true`\n"},
      {"two lesions of one name",
       R"({"exam":{"date":"2026-03-10","lesions":[{"id":"L1"},{"id":"L2"},{"id":"L1"}]}})",
       "r.json: exam.lesions[2].id: error: two entries are called lesion `L1`, expected each id once\n"},
      {"a complication before the examination",
       with_exam(R"("complications":[{"kind":"other"},{"kind":"bleeding","on":"2026-03-09"}])"),
       "r.json: exam.complications[1].on: error: the complication of `2026-03-09` is before the "
       "examination's `date` `2026-03-10`\n"},
      {"the syndrome after a polypectomy that was none",
       R"({"exam":{"date":"2026-03-10","lesions":[{"removal":"not removed"}],)"
       R"("complications":[{"kind":"post-polypectomy syndrome"}]}})",
       "r.json: exam.complications[0].kind: error: `kind` `post-polypectomy syndrome` is given, but no "
       "lesion "
       "was removed\n"},
      {"two pots of one name", with_exam(R"("specimens":[{"id":"A"},{"id":"A"}])"),
       "r.json: exam.specimens[1].id: error: two entries are called specimen `A`, expected each id once\n"},
      {"a pot that nobody sent",
       R"({"exam":{"date":"2026-03-10","lesions":[{"specimen":"B"}],"specimens":[{"id":"A"}]}})",
       "r.json: exam.lesions[0].specimen: error: `specimen` `B` is not among the examination's "
       "`specimens`\n"},
      {"bounds the wrong way round", with_lesion(R"("size_mm":{"from":12,"to":8.5})"),
       "r.json: exam.lesions[0].size_mm: error: `from` `12` is more than `to` `8.5`\n"},
      {"a wrong check digit",
       with_patient(R"("identifiers":[{"system":"nhs-number","value":"999 000 0019"}])"),
       "r.json: patient.identifiers[0].value: error: `999 000 0019` is no NHS number, expected ten digits "
       "with the "
       "right check digit\n"
       "  help: compare it with the source; a digit is wrong, missing or swapped\n"},
      {"two NHS numbers",
       with_patient(
           R"("identifiers":[{"system":"nhs-number","value":"999 000 0018"},{"system":"nhs-number","value":"9990000026"}])"),
       "r.json: patient.identifiers[1].value: error: the NHS number `9990000026` stands beside `999 000 "
       "0018`: a "
       "person has one\n"},
  }));
  INFO(row.because << ": " << row.record);
  CHECK(errors_of(row.record) == row.errors);
}

TEST_CASE("all faults of a record are found in one run", "[record][errors]") {
  CHECK(errors_of(R"({"patient":{"birth_date":"2027-01-01","sex":"F"},
                      "exam":{"date":"2026-03-10","lesions":[{"size_mm":0},{"paris":"0-Is","pariss":"0-Is"}]},
                      "setting":{"screening_from_age":"50"}})") ==
        "r.json: patient.sex: error: `F` is no term for this, expected `female`, `male` or `unknown`\n"
        "r.json: exam.lesions[0].size_mm: error: `0` is out of bounds, expected millimetres, more than 0 and "
        "at most "
        "300\n"
        "r.json: exam.lesions[1].pariss: error: a lesion has no `pariss`\n"
        "  help: did you mean `paris`? a lesion has `id`, `number`, `site`, `size_mm`, `paris`, `removal`, "
        "`retrieved`, `specimen` and `histology`\n"
        "r.json: setting.screening_from_age: error: the text `50` was read, expected a whole number from 0 "
        "to 120\n"
        "  help: write `50` without quotation marks\n"
        "r.json: exam.date: error: the examination of `2026-03-10` is before `patient.birth_date` "
        "`2027-01-01`\n");
}

TEST_CASE("what could not be read contradicts nothing", "[record][errors]") {
  const auto count = [](const std::string& text) { return read_record(text, "r.json").errors().size(); };
  CHECK(count(R"({"patient":{"birth_date":"1990-01-01"},"exam":{"date":"2026-13-01","lesions":[]},
                  "previous":[{"date":"2020-01-01","lesions":[]}]})") == 1);
  CHECK(count(R"({"patient":{"birth_date":"1990-01-01"},"exam":{"lesions":[]},"previous":[null]})") == 2);
  CHECK(count(with_lesion(R"("removal":"not removed","retrieved":"true","histology":[])")) == 2);
}

TEST_CASE("of very many faults only the first are listed", "[record][errors]") {
  std::string lesions = "{\"size_mm\":0}";
  for (int i = 0; i < 500; ++i) lesions += ",{\"size_mm\":0}";
  const auto record = read_record(R"({"exam":{"date":"2026-03-10","lesions":[)" + lesions + "]}}", "r.json");
  REQUIRE_FALSE(record);
  REQUIRE(record.errors().size() == 101);
  CHECK(text_of(record.errors().back()) ==
        "r.json: error: there are more faults than these 100\n"
        "  help: mend these first, then read the record again\n");
}

}  // namespace
}  // namespace engine
