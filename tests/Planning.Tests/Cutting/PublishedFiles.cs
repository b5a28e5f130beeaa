namespace KittingBee.Planning.Tests.Cutting;

/// <summary>Published problems too large for the tests themselves, where somebody has laid them beside the project.</summary>
internal static class PublishedFiles
{
    /// <summary>The folder of one collection under shared/benchmarks beside the project; skips the test, with a reason, where there is none.</summary>
    public static string Folder(string collection)
    {
        var place = new DirectoryInfo(AppContext.BaseDirectory);
        while (place is not null && !File.Exists(Path.Combine(place.FullName, "KittingBee.slnx")))
        {
            place = place.Parent;
        }

        // A second working tree of the project lies one folder deeper.
        foreach (var beside in new[] { place?.Parent, place?.Parent?.Parent })
        {
            if (beside is not null && Path.Combine(beside.FullName, "shared", "benchmarks", collection) is var folder && Directory.Exists(folder))
            {
                return folder;
            }
        }

        Assert.Skip($"The published problems are not beside the project: ../shared/benchmarks/{collection} is missing.");
        return string.Empty;
    }
}
