// Runs the public DMN conformance kit beside the project, each of its directories as a test of its own.
// Outside check. Source: OMG DMN Technology Compatibility Kit (Apache-2.0), not part of the project.

#define CATCH_CONFIG_EXTERNAL_INTERFACES
#include <catch2/catch.hpp>
#include <algorithm>
#include <iostream>
#include <map>
#include <pugixml.hpp>

#include "conformance/kit_case.h"
#include "engine/model.h"
#include "support/places.h"

namespace {

namespace fs = std::filesystem;

const fs::path kit_folder = fs::path(support::source()) / ".." / "shared" / "feel" / "tck" / "TestCases";

// The directory whose point is a call into Java, which this engine does not make.
constexpr std::string_view left_out = "0076-feel-external-java";

/// A case of the kit expects one result or several.
struct Count {
  int cases = 0, cases_passed = 0, results = 0, passed = 0, not_null = 0, not_null_passed = 0;
};

std::map<std::string, Count>& counts() {
  static std::map<std::string, Count> all;
  return all;
}

engine::Model::Importer importer_for(const fs::path& folder) {
  return [folder](const engine::Import& wanted) -> std::optional<std::string> {
    for (const auto& entry : fs::directory_iterator(folder)) {
      if (entry.path().extension() != ".dmn") continue;
      std::string text = kit::read_text(entry.path());
      pugi::xml_document document;
      document.load_string(text.c_str());
      if (document.document_element().attribute("namespace").value() == wanted.namespace_name) return text;
    }
    return std::nullopt;
  };
}

using Loaded = std::shared_ptr<const engine::Model>;

std::optional<std::uint32_t> find_input(const engine::Model& model, const kit::Input& input) {
  std::optional<std::uint32_t> found;
  for (std::uint32_t i = 0; i < model.elements().size(); ++i) {
    const engine::ElementView& element = model.elements()[i];
    if (element.own_name != input.name && element.name != input.name) continue;
    const std::string& space = input.namespace_name.empty() ? model.namespace_name() : input.namespace_name;
    if (element.kind == engine::ElementView::Kind::input && (element.namespace_name == space || !found)) found = i;
  }
  return found;
}

engine::Value invoke(engine::Evaluation& run, const engine::Model& model, const kit::Case& c,
                     const kit::Expectation& expected) {
  using Kind = engine::ElementView::Kind;
  if (c.kind == "decision") {
    for (const kit::Input& input : c.inputs) {
      if (const auto i = find_input(model, input)) run.set_input(*i, input.value);
    }
    const auto decision = model.find(expected.name, Kind::decision);
    REQUIRE(decision);
    return run.decide(*decision);
  }
  const auto function = model.find(c.invocable, c.kind == "bkm" ? Kind::function : Kind::service);
  REQUIRE(function);
  const engine::Value result = run.call_by_name(*function, [&] {
    std::vector<engine::Named> arguments;
    for (const kit::Input& input : c.inputs) arguments.push_back({input.name, input.value});
    return arguments;
  }());
  // A service with several outputs gives a context of them.
  if (result.is(engine::Kind::context) && c.expected.size() > 1) {
    const std::uint32_t at = result.context().position(expected.name);
    if (at < result.context().size) return result.context().values[at];
  }
  return result;
}

class Directory : public Catch::ITestInvoker {
 public:
  explicit Directory(fs::path folder) : folder_(std::move(folder)) {}

  void invoke() const override {
    std::vector<fs::path> files;
    for (const auto& entry : fs::directory_iterator(folder_)) {
      if (entry.path().extension() == ".xml") files.push_back(entry.path());
    }
    std::sort(files.begin(), files.end());
    REQUIRE_FALSE(files.empty());
    for (const fs::path& file : files) run_file(file);
  }

 private:
  void run_file(const fs::path& file) const {
    engine::Arena arena;
    const kit::TestFile tests = kit::read_test_file(file, arena);
    const auto model = engine::Model::load(kit::read_text(tests.model), tests.model.filename().string(),
                                           engine::Profile::standard, importer_for(folder_));
    INFO(file.filename().string());
    if (!model) {
      std::string text;
      for (const engine::Error& error : model.errors()) text += text_of(error);
      FAIL_CHECK("the model does not load:\n" << text);
      for (const kit::Case& c : tests.cases) {
        ++counts()[group()].cases;
        counts()[group()].results += static_cast<int>(c.expected.size());
      }
      return;
    }
    for (const kit::Case& c : tests.cases) {
      bool all_right = true;
      for (const kit::Expectation& expected : c.expected) all_right = run_case(*model, c, expected) && all_right;
      ++counts()[group()].cases;
      counts()[group()].cases_passed += all_right;
    }
  }

  bool run_case(const Loaded& model, const kit::Case& c, const kit::Expectation& expected) const {
    engine::Evaluation run(model);
    run.set_now({{2026, 3, 10}, {43'200'000'000'000, {}}});
    const engine::Value actual = ::invoke(run, *model, c, expected);
    Count& count = counts()[group()];
    ++count.results;
    count.not_null += !expected.value.is_null();
    const bool error_said = !expected.error || run.has_error();
    const bool right = kit::agrees(expected.value, actual) && error_said;
    INFO("case " << c.id << ", " << expected.name << ": expected " << engine::literal_of(expected.value)
                 << (expected.error ? " and an error" : "") << ", got " << engine::literal_of(actual));
    std::string notes;
    for (const engine::Diagnostic& d : run.diagnostics()) notes += d.message + " in " + d.text + "\n";
    INFO(notes);
    CHECK(right);
    count.passed += right;
    count.not_null_passed += right && !expected.value.is_null();
    return right;
  }

  /// `compliance-level-3/01xx`: the kit numbers its directories by subject.
  std::string group() const {
    return (folder_.parent_path().filename() / folder_.filename().string().substr(0, 2)).string() + "xx";
  }

  fs::path folder_;
};

// Registers a test for each directory before the tests start.
struct Register {
  Register() {
    if (!fs::exists(kit_folder)) return;
    for (const auto& level : fs::directory_iterator(kit_folder)) {
      if (!level.is_directory()) continue;
      for (const auto& folder : fs::directory_iterator(level)) {
        const std::string name = folder.path().filename().string();
        if (name == left_out) continue;
        const std::string full = "kit: " + level.path().filename().string() + "/" + name;
        Catch::AutoReg(new Directory(folder.path()), CATCH_INTERNAL_LINEINFO, Catch::StringRef(),
                       Catch::NameAndTags(full, "[kit]"));
      }
    }
  }
} registered;

struct Summary : Catch::TestEventListenerBase {
  using TestEventListenerBase::TestEventListenerBase;
  void testRunEnded(const Catch::TestRunStats&) override {
    for (const auto& [group, c] : counts()) {
      std::cout << "conformance kit, " << group << ": " << c.cases_passed << " of " << c.cases << " cases, " << c.passed
                << " of " << c.results << " results; of those not null " << c.not_null_passed << " of " << c.not_null << '\n';
    }
  }
};
CATCH_REGISTER_LISTENER(Summary)

}  // namespace

TEST_CASE("the conformance kit is beside the project", "[kit]") {
  if (!fs::exists(kit_folder)) {
    WARN("skipped: the conformance kit is not beside the project (../shared/feel/tck), so nothing of it was run");
    return;
  }
  CHECK(fs::exists(kit_folder / "compliance-level-3"));
}
