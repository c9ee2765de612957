#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <random>
#include <thread>

#include "engine/canonical.h"
#include "engine/record.h"
#include "record/terms.h"
#include "support/builders.h"
#include "support/places.h"

namespace engine {
namespace {

using support::a_lesion;
using support::a_record;

Record read(const std::string& text) {
  auto record = read_record(text, "test");
  if (!record) {
    for (const Error& error : record.errors()) UNSCOPED_INFO(text_of(error));
    UNSCOPED_INFO(text);
  }
  REQUIRE(record);
  return *record;
}

Lesion read_lesion(const std::string& keys) {
  return read(R"({"exam":{"date":"2026-03-10","lesions":[{)" + keys + "}]}}").exam.lesions.front();
}

TEST_CASE("every key of a record fills its member", "[record]") {
  // The example of the examination record's format, with all that the format names.
  const Record record = read(R"({
    "patient": {"identifiers":[{"system":"nhs-number","value":"999 000 0018"}],
                "name":{"family":"Example","given":"Ada","prefix":"Dr"},
                "contact":{"telephone":"01632 960001","email":"ada@example.org","address":["1 Mill Lane","Ambleworth"]},
                "family_doctor":{"name":"Dr F. Aldous","practice":"Mill Lane Surgery","address":["3 Mill Lane"]},
                "birth_date":"1961-05-04", "sex":"female",
                "conditions":[{"name":"ulcerative colitis","onset":"2009","extent":"extensive","activity":"mild",
                               "post_inflammatory_polyps":true,"stricture":false,"dysplasia_within_5_years":false},
                              {"name":"lynch syndrome","gene":"MSH6"},
                              {"name":"colorectal cancer resected","resection_date":"2020-02-29"}],
                "relatives":[{"degree":1,"cancer":"colorectal","age":48}], "family_history":"none",
                "life_expectancy_under_10_years":false,
                "needs":[{"flag":"anticoagulant","since":"2024-02-01","source":"pre-assessment"}]},
    "exam": {"id":"E1","date":"2026-03-10","indication":"screening","procedure":"colonoscopy","reached":"caecum",
             "cleared":true,"preparation":{"boston":{"right":2,"transverse":3,"left":0},"graded":"fair"},
             "endoscopist":"Dr Example","place":"Unit 1",
             "lesions":[{"id":"L1","number":3,"site":"sigmoid colon","size_mm":12.5,"paris":"0-Is","removal":"en bloc",
                         "retrieved":true,"specimen":"A",
                         "histology":{"type":"tubular adenoma","dysplasia":"low grade","margin":"clear","size_mm":10}}],
             "specimens":[{"id":"A","accession":"26H01234","sent":"2026-03-10"}],
             "complications":[{"kind":"bleeding","on":"2026-03-12","severity":"moderate"},{"kind":"other"}]},
    "previous": [{"date":"2021-01-01","lesions":[]},{"date":"2023-01-01","lesions":[]}],
    "setting": {"nation":"England","screening_from_age":50,"organised_screening":true,
                "adenoma_detection_adequate":true}})");
  const Patient& patient = record.patient;
  CHECK(patient.identifiers.at(0).system == "nhs-number");
  CHECK(patient.identifiers.at(0).value == "999 000 0018");
  CHECK(patient.name.value().family == "Example");
  CHECK(patient.name.value().given == "Ada");
  CHECK(patient.name.value().prefix == "Dr");
  CHECK(patient.contact.value().telephone == "01632 960001");
  CHECK(patient.contact.value().email == "ada@example.org");
  CHECK(patient.contact.value().address == std::vector<std::string>{"1 Mill Lane", "Ambleworth"});
  CHECK(patient.family_doctor.value().name == "Dr F. Aldous");
  CHECK(patient.family_doctor.value().practice == "Mill Lane Surgery");
  CHECK(patient.family_doctor.value().address == std::vector<std::string>{"3 Mill Lane"});
  CHECK(patient.birth_date == Date{1961, 5, 4});
  CHECK(patient.sex == Sex::female);
  const auto& conditions = patient.conditions.value();
  CHECK(conditions.at(0).name == ConditionName::ulcerative_colitis);
  CHECK(conditions.at(0).onset == "2009");
  CHECK(conditions.at(0).extent == Extent::extensive);
  CHECK(conditions.at(0).activity == Activity::mild);
  CHECK(conditions.at(0).post_inflammatory_polyps == true);
  CHECK(conditions.at(0).stricture == false);
  CHECK(conditions.at(0).dysplasia_within_5_years == false);
  CHECK(conditions.at(1).gene == "MSH6");
  CHECK(conditions.at(2).resection_date == Date{2020, 2, 29});
  CHECK(patient.relatives.value().at(0).degree == 1);
  CHECK(patient.relatives.value().at(0).cancer == "colorectal");
  CHECK(patient.relatives.value().at(0).age == 48);
  CHECK(patient.family_history == FamilyHistory::none);
  CHECK(patient.life_expectancy_under_10_years == false);
  CHECK(patient.needs.at(0).flag == "anticoagulant");
  CHECK(patient.needs.at(0).since == Date{2024, 2, 1});
  CHECK(patient.needs.at(0).source == "pre-assessment");

  const Examination& exam = record.exam;
  CHECK(exam.id == "E1");
  CHECK(exam.date == Date{2026, 3, 10});
  CHECK(exam.indication.value == Indication::screening);
  CHECK(exam.procedure.value == Procedure::colonoscopy);
  CHECK(exam.reached.value == Segment::caecum);
  CHECK(exam.cleared.value);
  CHECK(exam.boston.value().right.value == 2);
  CHECK(exam.boston.value().transverse.value == 3);
  CHECK(exam.boston.value().left.value == 0);
  CHECK(exam.graded.value == Grade::fair);
  CHECK(exam.endoscopist == "Dr Example");
  CHECK(exam.place == "Unit 1");
  const Lesion& lesion = exam.lesions.at(0);
  CHECK(lesion.id == "L1");
  CHECK(lesion.number.value == 3);
  CHECK(lesion.site.value == Segment::sigmoid_colon);
  CHECK(lesion.size.value == Millimetres{125});
  CHECK(lesion.paris.value == Paris::is);
  CHECK(lesion.removal.value == Removal::en_bloc);
  CHECK(lesion.retrieved.value);
  CHECK(lesion.specimen == "A");
  CHECK(lesion.histology.value().type.value == LesionType::tubular_adenoma);
  CHECK(lesion.histology.value().dysplasia.value == Dysplasia::low_grade);
  CHECK(lesion.histology.value().margin.value == Margin::clear);
  CHECK(lesion.histology.value().size.value == 10_mm);
  CHECK(exam.specimens.at(0).id == "A");
  CHECK(exam.specimens.at(0).accession == "26H01234");
  CHECK(exam.specimens.at(0).sent == Date{2026, 3, 10});
  const auto& complications = exam.complications.value();
  CHECK(complications.at(0).kind == ComplicationKind::bleeding);
  CHECK(complications.at(0).on == Date{2026, 3, 12});
  CHECK(complications.at(0).severity == ComplicationSeverity::moderate);
  CHECK(complications.at(1).kind == ComplicationKind::other);
  CHECK_FALSE(complications.at(1).on);
  CHECK_FALSE(complications.at(1).severity);
  CHECK(record.previous.value().at(1).date == Date{2023, 1, 1});
  CHECK(record.setting.nation == "England");
  CHECK(record.setting.screening_from_age == 50);
  CHECK(record.setting.organised_screening == true);
  CHECK(record.setting.adenoma_detection_adequate == true);
}

TEST_CASE("what is left out is not stated, and null is left out", "[record]") {
  const auto text = GENERATE(values<std::string>({
      R"({"exam":{"date":"2026-03-10"}})",
      R"({"patient":null,"previous":null,"setting":null,
          "exam":{"id":null,"date":"2026-03-10","indication":null,"procedure":null,"reached":null,"cleared":null,
                  "preparation":null,"endoscopist":null,"place":null,"lesions":null,"specimens":null,
                  "complications":null}})",
      R"({"patient":{"identifiers":null,"name":null,"contact":null,"family_doctor":null,"birth_date":null,"sex":null,"conditions":null,"relatives":null,
                     "family_history":null,"life_expectancy_under_10_years":null,"needs":null},
          "exam":{"date":"2026-03-10","preparation":{"boston":null,"graded":null}},
          "setting":{"nation":null,"screening_from_age":null,"organised_screening":null,
                     "adenoma_detection_adequate":null}})",
  }));
  const Record record = read(text);
  CHECK_FALSE(record.patient.birth_date);
  CHECK_FALSE(record.patient.sex);
  CHECK_FALSE(record.patient.conditions);
  CHECK_FALSE(record.patient.relatives);
  CHECK_FALSE(record.patient.family_history);
  CHECK_FALSE(record.patient.life_expectancy_under_10_years);
  CHECK(record.exam.indication.state == Fact<Indication>::State::not_stated);
  CHECK(record.exam.cleared.state == Fact<bool>::State::not_stated);
  CHECK_FALSE(record.exam.boston);
  CHECK(record.exam.graded.state == Fact<Grade>::State::not_stated);
  CHECK_FALSE(record.exam.lesions_stated);
  CHECK(record.exam.lesions.empty());
  CHECK_FALSE(record.exam.complications);
  CHECK_FALSE(record.previous);
  CHECK_FALSE(record.setting.nation);
  CHECK_FALSE(record.setting.adenoma_detection_adequate);
}

TEST_CASE("an empty list says that there is none", "[record]") {
  const Record record = read(
      R"({"patient":{"conditions":[],"relatives":[]},
          "exam":{"date":"2026-03-10","lesions":[],"complications":[]},"previous":[]})");
  CHECK(record.patient.conditions.value().empty());
  CHECK(record.patient.relatives.value().empty());
  CHECK(record.exam.lesions_stated);
  CHECK(record.exam.complications.value().empty());
  CHECK(record.previous.value().empty());
}

TEST_CASE("a lesion of which nothing is said is one polyp and otherwise in doubt", "[record]") {
  const Lesion lesion = read_lesion(R"("number":null,"histology":null)");
  CHECK(lesion.number.is_known());
  CHECK(lesion.number.value == 1);
  CHECK(lesion.size.state == Fact<Millimetres>::State::not_stated);
  CHECK(lesion.retrieved.state == Fact<bool>::State::not_stated);
  CHECK_FALSE(lesion.histology);
}

TEST_CASE("a fact may be known within bounds", "[record]") {
  const Lesion lesion = read_lesion(
      R"("size_mm":{"from":8,"to":12.5},"number":{"to":4,"from":2},"site":["rectum","sigmoid colon"],
         "histology":{"type":["tubular adenoma","tubulovillous adenoma"],"size_mm":{"from":1,"to":2}})");
  CHECK(lesion.size.state == Fact<Millimetres>::State::bounded);
  CHECK(lesion.size.value == 8_mm);
  CHECK(lesion.size.most == Millimetres{125});
  CHECK(lesion.number.state == Fact<std::int32_t>::State::bounded);
  CHECK(lesion.number.value == 2);
  CHECK(lesion.number.most == 4);
  CHECK(lesion.site.state == Fact<Segment>::State::bounded);
  CHECK(lesion.site.options == std::vector{Segment::rectum, Segment::sigmoid_colon});
  CHECK(lesion.histology.value().type.options ==
        std::vector{LesionType::tubular_adenoma, LesionType::tubulovillous_adenoma});
  CHECK(lesion.histology.value().size.most == 2_mm);
}

TEST_CASE("bounds that leave one value make it known", "[record]") {
  const Lesion lesion =
      read_lesion(R"("size_mm":{"from":8,"to":8},"number":{"from":2,"to":2},"site":["rectum"])");
  CHECK(lesion.size.is_known());
  CHECK(lesion.size.value == 8_mm);
  CHECK(lesion.number.is_known());
  CHECK(lesion.site.is_known());
  CHECK(lesion.site.value == Segment::rectum);
}

TEST_CASE("these are unusual, but possible", "[record]") {
  struct Row {
    const char* because;
    std::string record;
  };
  const auto row = GENERATE(values<Row>({
      {"examined on the day of birth", a_record().born("2026-03-10").text()},
      {"aged 120", a_record().aged(120).text()},
      {"two examinations on one day", a_record().after(a_record()).text()},
      {"operated on after the examination that found the cancer",
       a_record()
           .with_condition({{"name", "colorectal cancer resected"}, {"resection_date", "2026-04-01"}})
           .text()},
      {"the bowel cleared just before the operation",
       a_record()
           .with_fact("/exam/indication", "cancer follow-up")
           .with_condition({{"name", "colorectal cancer resected"}, {"resection_date", "2026-03-17"}})
           .text()},
      {"two cancers",
       a_record()
           .with_condition({{"name", "colorectal cancer resected"}, {"resection_date", "2020-01-01"}})
           .with_condition({{"name", "colorectal cancer resected"}, {"resection_date", "2021-01-01"}})
           .text()},
      {"colitis since the year of the examination",
       a_record().with_condition({{"name", "ulcerative colitis"}, {"onset", "2026"}}).text()},
      {"colitis since the year of birth",
       a_record().with_condition({{"name", "ulcerative colitis"}, {"onset", "1961-05"}}).text()},
      {"removed and lost", a_record().with(a_lesion().lost()).text()},
      {"seen and left", a_record().with(a_lesion().left_in_place()).text()},
      {"histology, and retrieval not stated", a_record().with(a_lesion().without("retrieved")).text()},
      {"histology, and perhaps not removed",
       a_record().with(a_lesion().with_fact("removal", {"biopsy only", "not removed"})).text()},
      {"lost, with a histology that says nothing",
       a_record().with(a_lesion().lost().with_fact("histology", {{"type", nullptr}})).text()},
      {"the pathologist measures otherwise",
       a_record().with(a_lesion().of(20_mm).with_fact("histology", {{"size_mm", 9.5}})).text()},
      {"the same lesion id in another examination",
       a_record().with(a_lesion().called("L1")).after(a_record().with(a_lesion().called("L1"))).text()},
      {"a pot without a list of pots", a_record().with(a_lesion().in_pot("A")).text()},
      {"another nation", a_record().with_fact("/setting/nation", "Ireland").text()},
      {"whole numbers written with a point", a_record().with(a_lesion().with_fact("number", 2.0)).text()},
      {"a byte order mark in front", "\xEF\xBB\xBF" + a_record().text()},
      {"a complication on the day of the examination, and one of a day not known",
       a_record()
           .with_fact("/exam/complications",
                      {{{"kind", "perforation"}, {"on", "2026-03-10"}}, {{"kind", "bleeding"}}})
           .text()},
      {"the syndrome after a polypectomy when what was removed is not stated",
       a_record()
           .without("/exam/lesions")
           .with_fact("/exam/complications", {{{"kind", "post-polypectomy syndrome"}}})
           .text()},
      {"an address without a telephone",
       a_record().with_fact("/patient/contact", {{"address", {"1 Mill Lane"}}}).text()},
      {"an identifier that is no NHS number",
       a_record()
           .with_fact("/patient/identifiers", {{{"system", "hospital-number"}, {"value", "1"}}})
           .text()},
  }));
  INFO(row.because);
  read(row.record);
}

TEST_CASE("the caller's own keys stand beside `given`", "[record]") {
  const std::string bare = a_record().with(a_lesion()).text();
  const std::string given = R"({"expect":{"a":1},"given":)" + bare + R"(,"id":"case 7"})";
  CHECK(read(given).canonical == read(bare).canonical);
}

TEST_CASE("the caller's id is found without reading the record", "[record]") {
  struct Row {
    const char* because;
    const char* text;
    const char* id;
  };
  const auto row = GENERATE(values<Row>({
      {"beside the record", R"({"id":"case 7","given":{}})", "case 7"},
      {"with letters beyond ASCII", R"({"given":{},"id":"Nr. \u00fc"})", "Nr. ü"},
      {"a whole number", R"({"id":17,"given":{}})", "17"},
      {"also of a record that will be refused", R"({"id":"case 7"})", "case 7"},
      {"none", R"({"given":{"exam":{"id":"E1"}}})", ""},
      {"an object is no id", R"({"id":{},"given":{}})", ""},
      {"no JSON", R"({"id":"case 7)", ""},
      {"no object", "[1]", ""},
      {"no text", "", ""},
  }));
  INFO(row.because);
  CHECK(caller_id(row.text) == row.id);
}

TEST_CASE("the digest is that of the canonical form, whatever the order and white space", "[record]") {
  const Record a =
      read(R"({"exam":{"date":"2026-03-10","lesions":[{"size_mm":12.0,"id":"L1"}]},"patient":{}})");
  const Record b = read(
      "{ \"patient\":{ },\n\"exam\":{\"lesions\":[{\"id\":\"L1\",\"size_mm\":12}],\"date\":"
      "\"2026-03-10\"} }");
  CHECK(a.canonical == R"({"exam":{"date":"2026-03-10","lesions":[{"id":"L1","size_mm":12}]},"patient":{}})");
  CHECK(b.canonical == a.canonical);
  CHECK(a.digest == digest_text(a.canonical));
  CHECK(b.digest == a.digest);
}

TEST_CASE("a record that is read again from its canonical form is the same", "[record]") {
  const Record record =
      read(a_record().with(a_lesion()).with(a_lesion().lost()).after(a_record().on("2020-02-29")).text());
  CHECK(read(record.canonical).canonical == record.canonical);
  CHECK(record.canonical == canonical_json(nlohmann::json::parse(record.canonical)));
}

TEST_CASE("every term of the vocabulary is read, and printed as it was", "[record]") {
  const auto check = [](const auto& terms, const std::string& pointer, const auto& printed) {
    for (const std::string_view term : terms) {
      const Record record = read(a_record()
                                     .with(a_lesion())
                                     .with_condition({{"name", "ulcerative colitis"}})
                                     .with_fact(pointer, term)
                                     .text());
      INFO(pointer << " " << term);
      CHECK(printed(record) == term);
    }
  };
  const std::string lesion = "/exam/lesions/0/", condition = "/patient/conditions/0/";
  const auto first = [](const Record& record) -> const Lesion& { return record.exam.lesions[0]; };
  const auto colitis = [](const Record& record) -> const Condition& {
    return (*record.patient.conditions)[0];
  };
  check(vocabulary<Sex>, "/patient/sex", [](const Record& r) { return term_of(*r.patient.sex); });
  check(vocabulary<FamilyHistory>, "/patient/family_history",
        [](const Record& r) { return term_of(*r.patient.family_history); });
  check(vocabulary<ConditionName>, condition + "name",
        [&](const Record& r) { return term_of(colitis(r).name); });
  check(vocabulary<Extent>, condition + "extent",
        [&](const Record& r) { return term_of(*colitis(r).extent); });
  check(vocabulary<Activity>, condition + "activity",
        [&](const Record& r) { return term_of(*colitis(r).activity); });
  check(vocabulary<Indication>, "/exam/indication",
        [](const Record& r) { return term_of(r.exam.indication.value); });
  check(vocabulary<Procedure>, "/exam/procedure",
        [](const Record& r) { return term_of(r.exam.procedure.value); });
  check(vocabulary<Segment>, "/exam/reached", [](const Record& r) { return term_of(r.exam.reached.value); });
  check(vocabulary<Segment>, lesion + "site", [&](const Record& r) { return term_of(first(r).site.value); });
  check(vocabulary<Grade>, "/exam/preparation/graded",
        [](const Record& r) { return term_of(r.exam.graded.value); });
  check(vocabulary<Paris>, lesion + "paris", [&](const Record& r) { return term_of(first(r).paris.value); });
  check(vocabulary<Removal>.first(3), lesion + "removal",
        [&](const Record& r) { return term_of(first(r).removal.value); });
  check(vocabulary<LesionType>, lesion + "histology/type",
        [&](const Record& r) { return term_of(first(r).histology->type.value); });
  check(vocabulary<Dysplasia>, lesion + "histology/dysplasia",
        [&](const Record& r) { return term_of(first(r).histology->dysplasia.value); });
  check(vocabulary<Margin>, lesion + "histology/margin",
        [&](const Record& r) { return term_of(first(r).histology->margin.value); });
  const auto complication = [](const Record& record) { return (*record.exam.complications)[0]; };
  const auto with_complication = [](const char* key, std::string_view term) {
    nlohmann::json fields = {{"kind", "other"}};
    fields[key] = term;
    return read(
        a_record().with(a_lesion()).with_fact("/exam/complications", nlohmann::json::array({fields})).text());
  };
  for (const std::string_view term : vocabulary<ComplicationKind>) {
    CHECK(term_of(complication(with_complication("kind", term)).kind) == term);
  }
  for (const std::string_view term : vocabulary<ComplicationSeverity>) {
    CHECK(term_of(*complication(with_complication("severity", term)).severity) == term);
  }
  CHECK(read_lesion(R"("removal":"not removed")").removal.value == Removal::not_removed);
}

// The check cases were written by others, to the same format.
TEST_CASE("every check case of the guidelines is read", "[record]") {
  const std::filesystem::path folder = support::source() + "/../shared/guidelines/cases";
  if (!std::filesystem::exists(folder)) {
    WARN("skipped: the folder of check cases is not beside the source");
    return;
  }
  std::size_t count = 0;
  for (const auto& file : std::filesystem::directory_iterator(folder)) {
    std::ifstream lines(file.path());
    for (std::string line; std::getline(lines, line); ++count) {
      const auto record = read_record(line, file.path().filename().string());
      INFO(line);
      if (!record) FAIL_CHECK(text_of(record.errors().front()));
      CHECK(caller_id(line) == nlohmann::json::parse(line)["id"]);
      if (record) CHECK(record->canonical == canonical_json(nlohmann::json::parse(line)["given"]));
    }
  }
  CHECK(count > 0);
}

TEST_CASE("a text with any byte changed is read or refused, and never harms", "[record]") {
  const std::string text =
      a_record().with(a_lesion()).with(a_lesion().with_fact("size_mm", {{"from", 8}, {"to", 12}})).text();
  std::mt19937 random(5);
  for (int i = 0; i < 5000; ++i) {
    std::string changed = text;
    for (auto left = 1 + random() % 3; left > 0; --left) {
      const std::size_t at = random() % changed.size();
      switch (random() % 3) {
        case 0:
          changed[at] = static_cast<char>(random());
          break;
        case 1:
          changed.erase(at, 1 + random() % 9);
          break;
        default:
          changed.insert(at, changed.substr(random() % changed.size(), random() % 9));
      }
    }
    const auto record = read_record(changed, "test");
    if (record) {
      REQUIRE(nlohmann::json::parse(record->canonical).is_object());
    } else {
      for (const Error& error : record.errors()) REQUIRE_FALSE(text_of(error).empty());
    }
  }
}

TEST_CASE("several threads read at once", "[record]") {
  const std::string text = a_record().with(a_lesion()).text();
  const std::string digest = read(text).digest;
  std::vector<int> right(4, 0);
  std::vector<std::thread> threads;
  for (int& count : right) {
    threads.emplace_back([&] {
      for (int i = 0; i < 200; ++i) {
        const auto record = read_record(text, "test");
        if (record && record->digest == digest) ++count;
      }
    });
  }
  for (std::thread& thread : threads) thread.join();
  CHECK(right == std::vector<int>(4, 200));
}

}  // namespace
}  // namespace engine
