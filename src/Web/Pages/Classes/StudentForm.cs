using KittingBee.Web.Forms;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Pages.Classes;

/// <summary>A student as typed.</summary>
public sealed class StudentForm
{
    public string? Name { get; set; }

    public string? Contact { get; set; }

    public long? ColourwayId { get; set; }

    public string? Note { get; set; }

    public bool LargePrint { get; set; }

    public bool LeftHanded { get; set; }

    public bool Waiting { get; set; }

    public long Version { get; set; }

    public static StudentForm From(Student student) => new()
    {
        Name = student.Name,
        Contact = student.Contact,
        ColourwayId = student.ColourwayId,
        Note = student.Note,
        LargePrint = student.LargePrint,
        LeftHanded = student.LeftHanded,
        Waiting = student.Waiting,
        Version = student.Version,
    };

    public Student Read(FormReader reader, long classId, IReadOnlyList<Colourway> colourways)
    {
        if (ColourwayId is { } id && colourways.All(way => way.Id != id))
        {
            reader.Wrong(nameof(ColourwayId), "That colourway was taken away: choose another one.");
        }

        return new Student
        {
            ClassId = classId,
            Name = reader.Needed(nameof(Name), Name, "The name", 120),
            Contact = reader.Optional(nameof(Contact), Contact, "The contact", 400),
            ColourwayId = ColourwayId,
            Note = reader.Optional(nameof(Note), Note, "The note", 400),
            LargePrint = LargePrint,
            LeftHanded = LeftHanded,
            Waiting = Waiting,
            Version = Version,
        };
    }
}
