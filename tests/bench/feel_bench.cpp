// FEEL by itself: a filter over a bound record and a decision table, compiled beforehand, on one core.

#include <fstream>
#include <nlohmann/json.hpp>
#include <stdexcept>

#include "bench/allocations.h"
#include "bench/bench.h"
#include "bench/feel_table.h"
#include "engine/model.h"
#include "engine/record.h"
#include "record/bind.h"
#include "support/dmn_text.h"
#include "support/places.h"
#include "support/records.h"
#include "support/shell.h"
#include "support/shipped_rulesets.h"
#include "support/temporary_folder.h"

namespace bench {

namespace {

using engine::ElementView;
using engine::Value;
using nlohmann::json;

std::shared_ptr<const engine::Model> model_of(const std::string& inside) {
  const auto importer = support::importer_from(support::rulesets_folder / "uk-2020");
  auto model = engine::Model::load(testing::dmn(inside), "bench", engine::Profile::clinical, importer);
  if (!model) throw std::runtime_error(text_of(model.errors().front()));
  return *model;
}

std::uint32_t element(const engine::Model& model, std::string_view name, ElementView::Kind kind) {
  return model.find(name, kind).value();
}

// --- the filter ---

json eight_lesions() {
  std::vector<json> lesions;
  const std::array types{"tubular adenoma",         "hyperplastic polyp", "tubulovillous adenoma",
                         "sessile serrated lesion", "tubular adenoma",    "villous adenoma",
                         "inflammatory polyp",      "tubular adenoma"};
  const std::array sizes{12, 4, 25, 10, 9, 11, 15, 3};
  for (std::size_t i = 0; i < types.size(); ++i) {
    json histology = support::tubular_adenoma();
    histology["type"] = types[i];
    histology["dysplasia"] = i == 1 || i == 6 ? "none" : "low grade";
    lesions.push_back(support::a_lesion("L" + std::to_string(i), histology));
    lesions.back()["size_mm"] = sizes[i];
  }
  return support::a_record("H1", "E1", "2026-03-10", lesions);
}

class Filter {
 public:
  explicit Filter(const json& record)
      : record_(read(record)),
        model_(model_of(imports + testing::decision("large adenomas", needs, testing::literal(filter_text)))),
        evaluation_(model_),
        decision_(element(*model_, "large adenomas", ElementView::Kind::decision)) {
    bind(record_, evaluation_.arena(), bound_);
    evaluation_.set_input(element(*model_, "exam", ElementView::Kind::input), bound_.exam);
  }

  std::int64_t count() {
    evaluation_.forget_decisions();
    return evaluation_.decide(decision_).plain_integer();
  }

 private:
  static engine::Record read(const json& record) {
    auto result = engine::read_record(record.dump(), "bench");
    if (!result) throw std::runtime_error(text_of(result.errors().front()));
    return *result;
  }

  inline static const std::string imports =
      R"(<import name="" namespace="urn:dueward:record:1" locationURI="../shared/record.dmn" importType="https://www.omg.org/spec/DMN/20230324/MODEL/"/>)";
  inline static const std::string needs =
      R"(<informationRequirement><requiredInput href="urn:dueward:record:1#exam"/></informationRequirement>)";

  engine::Record record_;
  std::shared_ptr<const engine::Model> model_;
  engine::Evaluation evaluation_;
  engine::BoundRecord bound_;
  std::uint32_t decision_;
};

// --- the table ---

std::string table_text() {
  std::string text = R"(<decisionTable hitPolicy="UNIQUE">)";
  for (std::size_t i = 0; i < table_inputs; ++i) {
    text += std::string("<input><inputExpression typeRef=\"") + input_types[i] + "\"><text>" +
            input_names[i] + "</text></inputExpression></input>";
  }
  text += R"(<output typeRef="number"/>)";
  for (std::size_t row = 0; row < table_rows.size(); ++row) {
    text += "<rule>";
    for (const char* cell : table_rows[row])
      text += "<inputEntry><text>" + testing::escaped(cell) + "</text></inputEntry>";
    text += "<outputEntry><text>" + std::to_string(row + 1) + "</text></outputEntry></rule>";
  }
  return text + "</decisionTable>";
}

class Table {
 public:
  Table()
      : model_(model_of(text())),
        evaluation_(model_),
        decision_(element(*model_, "row", ElementView::Kind::decision)) {
    for (std::size_t i = 0; i < table_inputs; ++i)
      inputs_[i] = element(*model_, input_names[i], ElementView::Kind::input);
  }

  std::int64_t row(const TableInput& question) {
    evaluation_.forget_decisions();
    evaluation_.set_input(inputs_[0], Value::number(question.polyps));
    evaluation_.set_input(inputs_[1], Value::number(question.largest_mm));
    evaluation_.set_input(inputs_[2], Value::string(question.type));
    evaluation_.set_input(inputs_[3], Value::string(question.dysplasia));
    evaluation_.set_input(inputs_[4], Value::string(question.removal));
    evaluation_.set_input(inputs_[5], Value::number(question.age));
    return evaluation_.decide(decision_).plain_integer();
  }

 private:
  static std::string text() {
    std::string inputs, needs;
    for (std::size_t i = 0; i < table_inputs; ++i) {
      inputs += testing::input(input_names[i], input_types[i]);
      needs += testing::needs_input(input_names[i]);
    }
    return inputs + testing::decision("row", needs, table_text());
  }

  std::shared_ptr<const engine::Model> model_;
  engine::Evaluation evaluation_;
  std::uint32_t decision_;
  std::array<std::uint32_t, table_inputs> inputs_{};
};

// --- the same by feelin ---

json questions_for_feelin(const json& record) {
  json questions = json::array();
  for (const TableInput& q : table_questions) {
    questions.push_back({q.polyps, q.largest_mm, q.type, q.dysplasia, q.removal, q.age});
  }
  return {{"filter", filter_text}, {"exam", record["exam"]}, {"rows", table_rows}, {"questions", questions}};
}

/// What the script prints, by name; empty when node or the package is not there.
json ask_feelin(const json& record) {
  const support::TemporaryFolder folder;
  const std::string asked = folder.file("asked.json");
  std::ofstream(asked) << questions_for_feelin(record);
  const support::ShellResult result =
      support::shell("node '" + support::source("tests/bench/feelin_bench.mjs") + "' '" + asked + "' 2>&1");
  return result.exit_code == 0 ? json::parse(result.printed) : json();
}

void compare(const char* what, double ours, double theirs) {
  print(std::string("  by feelin, ") + what, theirs, "ns");
  print("    feelin's time against ours", theirs / ours, "times");
}

}  // namespace

void measure_feel() {
  const json record = eight_lesions();
  Filter filter(record);
  Table table;
  const json theirs = ask_feelin(record);
  if (theirs.is_null())
    std::puts("not compared with feelin: node or the package is not there (DEVELOPERS.md)");

  const double filtering = nanoseconds([&] { keep(filter.count()); });
  print("a filter over 8 lesions", filtering, "ns");
  print("  allocations", allocations_of([&] { keep(filter.count()); }), "each");
  if (!theirs.is_null()) {
    if (theirs["count"] != filter.count())
      throw std::runtime_error("feelin counts " + theirs["count"].dump());
    compare("parsed beforehand", filtering, theirs["filter_ns"]);
  }

  std::size_t next = 0;
  const auto scan = [&] { keep(table.row(table_questions[next++ % table_questions.size()])); };
  const double scanning = nanoseconds(scan);
  print("a table of 15 rows by 6 inputs", scanning, "ns");
  print("  allocations", allocations_of(scan), "each");
  if (!theirs.is_null()) {
    json rows = json::array();
    for (const TableInput& question : table_questions) rows.push_back(table.row(question));
    if (theirs["matches"] != rows)
      throw std::runtime_error("feelin finds the rows " + theirs["matches"].dump() + ", not " + rows.dump());
    compare("cells parsed beforehand", scanning, theirs["table_ns"]);
  }
}

}  // namespace bench
