import java.io.FileInputStream;
import java.util.List;
import org.verapdf.gf.foundry.VeraGreenfieldFoundryProvider;
import org.verapdf.pdfa.Foundries;
import org.verapdf.pdfa.PDFAParser;
import org.verapdf.pdfa.PDFAValidator;
import org.verapdf.pdfa.flavours.PDFAFlavour;
import org.verapdf.pdfa.results.TestAssertion;
import org.verapdf.pdfa.results.ValidationResult;

/**
 * Validates each file named on the command line against PDF/A-2a and PDF/UA-1 with veraPDF. Prints one
 * line per file and standard with the number of checks and of the rules they belong to, and one line
 * for each kind of failure; exits 1 where there is one.
 */
public final class Judge {
  public static void main(String[] files) throws Exception {
    VeraGreenfieldFoundryProvider.initialise();
    boolean clean = true;
    for (String file : files) {
      for (PDFAFlavour flavour : List.of(PDFAFlavour.PDFA_2_A, PDFAFlavour.PDFUA_1)) {
        clean &= judge(file, flavour);
      }
    }
    System.exit(clean ? 0 : 1);
  }

  private static boolean judge(String file, PDFAFlavour flavour) throws Exception {
    try (PDFAParser parser =
            Foundries.defaultInstance().createParser(new FileInputStream(file), flavour);
        PDFAValidator validator =
            Foundries.defaultInstance().createValidator(flavour, false)) {
      ValidationResult result = validator.validate(parser);
      System.out.printf(
          "%s\t%s\t%s\t%d checks\t%d rules%n",
          result.isCompliant() ? "pass" : "FAIL",
          flavour.getId(),
          file,
          result.getTotalAssertions(),
          result.getValidationProfile().getRules().size());
      java.util.Set<String> told = new java.util.TreeSet<>();
      for (TestAssertion assertion : result.getTestAssertions()) {
        if (assertion.getStatus() != TestAssertion.Status.FAILED) continue;
        String rule = assertion.getRuleId().getClause() + "-" + assertion.getRuleId().getTestNumber();
        if (!told.add(rule)) continue;
        System.out.printf(
            "\t%s\t%s\t%s%n", rule, assertion.getMessage(), assertion.getLocation().getContext());
      }
      return result.isCompliant();
    }
  }
}
