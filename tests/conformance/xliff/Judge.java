import java.io.File;
import java.nio.file.Files;
import net.sf.okapi.lib.xliff2.core.Part;
import net.sf.okapi.lib.xliff2.core.Segment;
import net.sf.okapi.lib.xliff2.reader.Event;
import net.sf.okapi.lib.xliff2.reader.XLIFFReader;
import net.sf.okapi.lib.xliff2.writer.XLIFFWriter;

/**
 * Reads XLIFF files with the Okapi library for XLIFF 2, which checks what schemas cannot say. For each
 * file: good or the reason why not. With "fill" it plays the translator: every open source is copied
 * into the target with its codes and a word of its own, and the file is written anew.
 */
public class Judge {
  public static void main(String[] arguments) throws Exception {
    if (arguments[0].equals("fill")) {
      fill(new File(arguments[1]), new File(arguments[2]));
      return;
    }
    for (String path : arguments) {
      try (XLIFFReader reader = new XLIFFReader(XLIFFReader.VALIDATION_MAXIMAL)) {
        reader.open(new File(path));
        int units = 0;
        while (reader.hasNext()) if (reader.next().isUnit()) units += 1;
        System.out.println("good\t" + new File(path).getName() + "\t" + units);
      } catch (Exception problem) {
        String reason = String.valueOf(problem.getMessage()).replaceAll("\\s+", " ");
        System.out.println("BAD\t" + new File(path).getName() + "\t" + reason);
      }
    }
  }

  private static void fill(File from, File to) throws Exception {
    try (XLIFFReader reader = new XLIFFReader(XLIFFReader.VALIDATION_MAXIMAL);
        XLIFFWriter writer = new XLIFFWriter()) {
      reader.open(from);
      writer.setUseIndentation(true);
      writer.create(to, "en-US", "nl");
      while (reader.hasNext()) {
        Event event = reader.next();
        if (event.isUnit()) {
          for (Segment segment : event.getUnit().getSegments()) {
            segment.getTarget(Part.GetTarget.CLONE_SOURCE).append(" (nl)");
            segment.setState("translated");
          }
        }
        writer.writeEvent(event);
      }
    }
  }
}
