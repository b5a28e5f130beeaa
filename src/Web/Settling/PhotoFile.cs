using KittingBee.Web.Storage;

namespace KittingBee.Web.Settling;

/// <summary>Reads an uploaded photo: what it is follows from its first bytes, never from its name or from what the browser says.</summary>
public static class PhotoFile
{
    /// <summary>A phone's picture is 2 to 6 MB.</summary>
    public const int LargestMegabytes = 8;

    private static ReadOnlySpan<byte> Png => [0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A];

    /// <summary>The photo, or what is wrong with the file.</summary>
    public static async Task<(Photo? Photo, string Fault)> Read(IFormFile file)
    {
        if (file.Length > LargestMegabytes * 1_000_000L)
        {
            return (null, Say($"The photo has {file.Length / 1_000_000m:0.0} MB; {LargestMegabytes} MB is the most. Take it with a smaller size, or cut it to the note."));
        }

        using var bytes = new MemoryStream();
        await file.CopyToAsync(bytes);
        var picture = bytes.ToArray();
        return MediaTypeOf(picture) is { } type
            ? (new Photo(type, picture), "")
            : (null, Say($"“{Path.GetFileName(file.FileName)}” is no JPEG, PNG or WebP picture. Save it as one of these, and choose it again."));
    }

    /// <summary>By the marks that each format begins with; null for anything else.</summary>
    public static string? MediaTypeOf(ReadOnlySpan<byte> file) => file switch
    {
        [0xFF, 0xD8, 0xFF, ..] => "image/jpeg",
        [(byte)'R', (byte)'I', (byte)'F', (byte)'F', _, _, _, _, (byte)'W', (byte)'E', (byte)'B', (byte)'P', ..] => "image/webp",
        _ when file.StartsWith(Png) => "image/png",
        _ => null,
    };
}
